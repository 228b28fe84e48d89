package note

import (
	"strings"
	"unicode/utf8"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/lib/plot"
	"ohmwright/lib/powertree"
	"ohmwright/units"
)

// Result is what one cell shows after a run, in the order of its statements.
type Result struct {
	ID      string // as the face named the cell
	Label   string // "cell 3", for people
	State   State
	Items   []Item        // entries, shown values, requirements, printed text, notices
	Errors  []*cell.Error // why it failed; empty unless State is Failed
	Files   []File        // that the cell names, as they were when it ran
	Defines []string      // names, in the order of their definition
	Ran     bool          // it ran in this call of Note.Run (else it was up to date)
	Fixed   bool          // nothing that another cell defines can change it
}

// State of a cell.
type State int

const (
	Done    State = iota // it ran, its values hold
	Failed               // it has an error of its own
	Waiting              // it waits for a name that another cell failed to define
)

// Item is one thing that a cell shows: one of *Entry, *Shown, *Requirement,
// *Printed, *Notice, *Spreading, *Derivation, *Plotted, *Part, *Policy, *Waiver,
// *Operating, *Measurement, *Prose.
type Item interface{ item() }

// Entry is a name that the cell defines.
type Entry struct {
	Name        string
	Value       cell.View
	Form        Form
	Formula     *cell.Expr // nil for an input, and for a value that statements built up
	Description string     // the comment behind the definition
	Source      string     // what stood in square brackets at its end, without them
	Files       []File     // that its definition reads
	Reason      string     // the comment lines above
	Choice      *Choice    // for FormChosen
	Spread      *Spread    // nil for an exact value and for what is no quantity
	Quiet       bool       // computed, but not shown
	Line        int        // where it is defined, 1-based in its cell
}

// Spread is how far a value goes over all cases of its sources: the ends of
// ranges, the limits of parts, and what lies between.
type Spread struct {
	Low, High         units.Quantity
	LowCase, HighCase string          // what gives them, in words
	Std               *units.Quantity // over boards with ranges at their usual value; nil where no part is a matter of chance
	Sources           []string        // names, sorted
	Search            Search
	Trouble           string // why the search ended early, "" if it did not

	lowCase, highCase units.Case
}

// Search says how the extremes of a value were found.
type Search int

const (
	Corners Search = iota // every corner was visited, and none lies inside
	Inside                // an extreme lies inside a range or band, and was searched
	Sampled               // too many corners to visit: the best found, a bound from below
)

// Origin is where the value comes from: its source, and the files that it was
// read from.
func (e *Entry) Origin() string {
	parts := []string{}
	if e.Source != "" {
		parts = append(parts, e.Source)
	}
	for _, f := range e.Files {
		parts = append(parts, f.String())
	}
	return strings.Join(parts, "; ")
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
	Deviation     float64         // chosen/ideal − 1
	Of            *cell.Expr      // what was rounded
	Kept          bool            // taken from the design as written, under a what-if
	Would         *units.Quantity // what it would be under the what-if, nil if the same
}

// Shown is the value of a last expression, or of any expression statement.
type Shown struct {
	Value   cell.View
	Formula *cell.Expr
	Spread  *Spread // nil for an exact value; as corners and sweeps show it, but for a name searched
}

// Requirement is a condition that the design must meet.
type Requirement struct {
	Text   string // what must hold, in the designer's words; of a rating, the part and what is rated
	ID     string // the identifier at its start, "PWR-3"; "" if there is none
	Rating *Rated // of a part that it holds, nil for others
	Waived string // the reason why it may fail; "" where it holds or is not waived
	Twice  string // where else the identifier stands, "" if nowhere
	Line   int
	// The comment behind it, what stands in square brackets at its end, and the
	// comment lines above.
	Description, Source, Reason string
	Condition                   *cell.Expr // "Tj <= 125°C", Within(x, lo, hi)
	Holds                       bool       // in every case
	Nominal                     bool       // it holds nominally
	// Margin is the nominal distance to the limit, positive when it holds; nil
	// where there is none (==).
	Margin *units.Quantity
	// Worst is the smallest margin of all cases, WorstCase what gives it; nil
	// where nothing spreads.
	Worst      *units.Quantity
	WorstCase  string
	FailsWhere string // a case in which it does not hold, where that is no matter of a margin
	WorstAll   string // WorstCase or FailsWhere with all sources, however many
	Search     Search
	Trouble    string
	Yield      *Yield // nil where chance has no part
	Inputs     Inputs

	key    string
	block  string          // whose it is, "" for one of the note itself
	live   *units.Quantity // the margin in all cases
	strict bool
	spread *Spread
	points []map[string]float64 // of the ranges, at which boards are counted; nil where none are
}

// Yield is how many boards of those drawn meet a requirement, where the
// ranges stand at their worst for it.
type Yield struct {
	Passed, Boards int
	Low, High      float64 // the share of all boards, with 95 % confidence
	Where          string  // where the ranges stand, "" if there are none
	Assumed        string  // how parts are distributed
}

// Inputs counts the inputs that a requirement rests on.
type Inputs struct {
	Spread  int // with limits
	Exact   int // without spread
	Typical int // for which nobody published limits
}

// Spreading is what Spread(x) shows.
type Spreading struct {
	Formula         *cell.Expr
	Value           units.Quantity // nominal
	Spread          *Spread
	RSSLow, RSSHigh *units.Quantity // nil where no part is a matter of chance
	Percentiles     []Percentile    // of the boards, ranges at their usual value
	Shares          []Share         // the largest first
	Bins            []Bin
	Boards          int
	Assumed         string
	Trouble         string

	key  string
	live units.Quantity
}

// Plotted is a figure, or a power tree, that a cell shows.
type Plotted struct {
	Figure  plot.Figure
	Tree    *powertree.Result // in place of Figure
	Formula *cell.Expr
}

// Percentile is the value that P percent of the boards stay below.
type Percentile struct {
	P     float64
	Value units.Quantity
}

// Share is what one source has in the spread of a value.
type Share struct {
	Name     string
	Kind     units.SourceKind
	Extreme  float64 // in the extremes, 0 … 1
	Variance float64 // in the variance, 0 … 1; less than 1 together where sources work jointly
}

// Bin counts boards between two values.
type Bin struct {
	From, To units.Quantity
	Boards   int
}

// Prose is a text that a cell shows, with values of the note in it.
type Prose struct {
	Text    string   // Markdown with its markers, {Vout}
	Entries []*Entry // of the names in them

	names []string
}

// Derivation is what Why(x) shows.
type Derivation struct {
	Of  string // "i.Peak"
	Why *Why
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
func (*Spreading) item()   {}
func (*Derivation) item()  {}
func (*Plotted) item()     {}
func (*Prose) item()       {}

// Why is the derivation of a value: its entry, and the same for every name
// that it was computed from.
type Why struct {
	Entry  *Entry
	Cell   string     // label of the cell
	Field  string     // the part of the value that was asked for, "Peak"; "" for all of it
	Part   *cell.View // that part
	Inside []*Inner   // what the lib functions did that its definition calls
	Inputs []*Why
	Cut    []string // inputs that lie deeper than was asked for
	Again  bool     // its inputs are shown where the name first stands in the tree

	Reference   string       // of the part that was asked for, which is this value
	Requirement *Requirement // that was asked for; Entry has its words only
}
