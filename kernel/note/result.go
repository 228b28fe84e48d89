package note

import (
	"unicode/utf8"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// Result is what one cell shows after a run, in the order of its statements.
type Result struct {
	ID      string // as the face named the cell
	Label   string // "cell 3", for people
	State   State
	Items   []Item        // entries, shown values, requirements, printed text, notices
	Errors  []*cell.Error // why it failed; empty unless State is Failed
	Defines []string      // names, in the order of their definition
	Ran     bool          // it ran in this call of Note.Run (else it was up to date)
}

// State of a cell.
type State int

const (
	Done    State = iota // it ran, its values hold
	Failed               // it has an error of its own
	Waiting              // it waits for a name that another cell failed to define
)

// Item is one thing that a cell shows: one of *Entry, *Shown, *Requirement,
// *Printed, *Notice.
type Item interface{ item() }

// Entry is a name that the cell defines.
type Entry struct {
	Name        string
	Value       cell.View
	Form        Form
	Formula     *cell.Expr // nil for an input, and for a value that statements built up
	Description string     // the comment behind the definition
	Source      string     // what stood in square brackets at its end, without them
	Reason      string     // the comment lines above
	Choice      *Choice    // for FormChosen
	// Low and High are the limits as given, for an input with Range, Band or ±.
	// SpreadPending: the value depends on an input with spread, and this
	// version computes the nominal value only.
	Low, High     *units.Quantity
	SpreadPending bool
	Quiet         bool // computed, but not shown
	Line          int  // where it is defined, 1-based in its cell
}

// Text is the value of an entry that is a quantity, as people write it: a
// chosen part as it is bought, an input in all digits that were typed, anything
// computed in four. ok is false for other values.
func (e *Entry) Text() (text string, ok bool) {
	q, ok := e.Value.Quantity.(units.Quantity)
	if !ok || e.Value.Kind != exec.KindQuantity {
		return "", false
	}
	switch e.Form {
	case FormChosen:
		return q.AsBought(), true
	case FormInput:
		// More than this nobody typed: a thirtieth of an inch, say.
		if t := q.Text(0); utf8.RuneCountInString(t) <= 16 {
			return t, true
		}
	}
	return q.String(), true
}

// Form of an entry.
type Form int

const (
	FormInput    Form = iota // a literal, Range, Band, ± of literals, a plain number or text
	FormComputed             // from other names
	FormChosen               // a preferred value
	FormMade                 // a function, a type's value, something without a formula
)

// Choice is a preferred value that was chosen.
type Choice struct {
	Rule          string // "nearest", "at least", "at most"
	Series        string // "E96"
	Ideal, Chosen units.Quantity
	Deviation     float64    // chosen/ideal − 1
	Of            *cell.Expr // what was rounded
	Kept          bool       // taken from the design as written, under a what-if
}

// Shown is the value of a last expression, or of any expression statement.
type Shown struct {
	Value         cell.View
	Formula       *cell.Expr
	SpreadPending bool
}

// Requirement is a condition that the design must meet.
type Requirement struct {
	Text          string     // what must hold, in the designer's words
	Condition     *cell.Expr // "Tj <= 125°C", Within(x, lo, hi)
	Holds         bool
	Margin        *units.Quantity // distance to the limit, positive when it holds; nil where it has none (==)
	SpreadPending bool
}

// Printed is text that the cell printed.
type Printed struct{ Text string }

// Notice is something that the user should know but that stops nothing.
type Notice struct {
	Text string
	Line int
}

func (*Entry) item()       {}
func (*Shown) item()       {}
func (*Requirement) item() {}
func (*Printed) item()     {}
func (*Notice) item()      {}

// Why is the derivation of a value: its entry, and the same for every name
// that it was computed from.
type Why struct {
	Entry  *Entry
	Cell   string // label of the cell
	Inputs []*Why
	Again  bool // its inputs are shown where the name first stands in the tree
}
