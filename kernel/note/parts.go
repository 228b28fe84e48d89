package note

import (
	"maps"
	"regexp"
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/units"
)

// Part is a value that is a part of the schematic.
type Part struct {
	Reference string
	Name      string         // the name of the note that it is, or a field of one; "" for another value
	Value     units.Quantity // nominal
	Words     string         // in place of Value: "2 A step-down regulator"
	Low, High *units.Quantity
	Formula   *cell.Expr
	// Entry is the definition of the name: description, source, reason, choice.
	Entry *Entry
	Twice string // where else the reference stands, "" if nowhere
	Line  int
}

// Text is the value as people write it: a chosen part as it is bought.
func (p *Part) Text() string {
	if p.Words != "" {
		return p.Words
	}
	if p.Entry != nil && p.Entry.Name == p.Name {
		if t, ok := p.Entry.Text(); ok {
			return t
		}
	}
	return p.Value.String()
}

// Tolerance is how far the part may be off, as a share, where its limits lie
// alike on both sides; ok is false where they do not, or are not known.
func (p *Part) Tolerance() (share float64, ok bool) {
	if p.Low == nil || p.Value.SI() == 0 {
		return 0, false
	}
	down, up := 1-p.Low.SI()/p.Value.SI(), p.High.SI()/p.Value.SI()-1
	return up, up > 0 && up-down < 1e-9 && down-up < 1e-9
}

// Rated says of a requirement that it holds a rating of a part: the stress,
// over all cases, within a share of the rating.
type Rated struct {
	Reference, What string
	Limit           units.Quantity
	Policy          float64 // the share that may be used
	Stress          *cell.Expr
}

// Share is the largest share of the rating that is used, over all cases.
func (r *Requirement) Share() (share float64, stress units.Quantity) {
	margin := r.Worst
	if margin == nil {
		margin = r.Margin
	}
	if r.Rating == nil || margin == nil {
		return 0, units.Quantity{}
	}
	share = r.Rating.Policy - margin.SI()
	return share, r.Rating.Limit.WithSI(share * r.Rating.Limit.SI())
}

// Policy is a rule of derating that the note states.
type Policy struct {
	Letters string // of the references that it is for; "" for all
	What    string
	Share   float64
	Ratings int // how many it applies to
}

// Waiver is a requirement that is allowed to fail.
type Waiver struct {
	ID, Reason string
	Trouble    string // why it waives nothing, "" if it does
}

// Measurement is what the bench says beside what the note computes.
type Measurement struct {
	Name      string
	Formula   *cell.Expr
	Value     units.Quantity // computed, nominal
	Low, High units.Quantity // computed, over all cases
	Reading   units.Quantity
	From, To  units.Quantity // the reading with the error of the instrument
	How       string         // date and instrument
	Verdict   Fit
	Search    Search
	Trouble   string

	key    string
	live   *units.Quantity
	spread *Spread
}

// Fit is how a reading lies to what was computed.
type Fit int

const (
	FitInside  Fit = iota // the reading with its error lies within the limits
	FitPerhaps            // the two overlap
	FitOutside
)

func (*Part) item()        {}
func (*Policy) item()      {}
func (*Waiver) item()      {}
func (*Measurement) item() {}

// Missed reports whether a requirement does not hold and is not waived.
func (r *Requirement) Missed() bool { return !r.Holds && r.Waived == "" }

// Fails reports whether an item says that the design, or the note, is not as
// it has to be: a requirement that is missed and not waived, in the design or
// in a case, a reading outside of what was computed, a reference, an identifier
// or a case that stands twice.
func Fails(i Item) bool {
	if _, twice := Twice(i); twice != "" {
		return true
	}
	switch x := i.(type) {
	case *Requirement:
		return x.Missed()
	case *Operating:
		return !x.Holds
	case *Measurement:
		return x.Verdict == FitOutside
	}
	return false
}

// ofTheBoard reports whether what other cells say can change an item: a rule,
// a waiver, a second part of the same reference.
func ofTheBoard(i Item) bool {
	switch x := i.(type) {
	case *Part, *Policy, *Waiver, *Operating:
		return true
	case *Requirement:
		return x.waivedAs() != ""
	}
	return false
}

// identifier is what may stand before the words of a requirement.
var identifier = regexp.MustCompile(`^([A-Za-z][A-Za-z0-9_-]*[0-9](?:\.[0-9]+)*):\s`)

// identifierOf is the identifier of a requirement, "" if it has none.
func identifierOf(text string) string {
	if m := identifier.FindStringSubmatch(text); m != nil {
		return m[1]
	}
	return ""
}

// partItem makes the items of what a cell says of the board.
func partItem(s cell.Step) Item {
	switch {
	case s.Part != nil:
		p := &Part{Reference: s.Part.Reference, Name: s.Part.Name, Value: units.Nominal(s.Part.Value), Words: s.Part.Words, Formula: s.Part.Formula, Line: s.Line}
		if spread := spreadOf(s.Part.Value); spread != nil {
			p.Low, p.High = &spread.Low, &spread.High
		}
		return p
	case s.Derate != nil:
		return &Policy{Letters: s.Derate.Letters, What: s.Derate.What, Share: s.Derate.Share}
	case s.Waive != nil:
		return &Waiver{ID: s.Waive.ID, Reason: s.Waive.Reason}
	case s.Case != nil:
		return operating(s.Case, s.Line)
	case s.Measured != nil:
		m := s.Measured
		out := &Measurement{Name: m.Name, Formula: m.Formula, Value: units.Nominal(m.Value), Reading: units.Nominal(m.Reading), How: m.How, key: s.Key, live: &m.Value}
		out.From, out.To = out.Reading, out.Reading
		if low, high, ok := m.Reading.Extremes(); ok {
			out.From, out.To = low.Value, high.Value
		}
		return out
	}
	return nil
}

// judge finds how the reading lies.
func (m *Measurement) judge() {
	m.Low, m.High = m.Value, m.Value
	if s := m.spread; s != nil {
		m.Low, m.High, m.Search, m.Trouble = s.Low, s.High, s.Search, s.Trouble
	}
	low, high := m.Low.SI(), m.High.SI()
	from, to := m.From.SI(), m.To.SI()
	switch {
	case least(low, from) && least(to, high):
		m.Verdict = FitInside
	case least(low, to) && least(from, high):
		m.Verdict = FitPerhaps
	default:
		m.Verdict = FitOutside
	}
}

// least is a ≤ b, but for rounding.
func least(a, b float64) bool { return a <= b || near(a, b) }

// rule is what a share of a rating is stated for: in the note whose names have
// a prefix, parts by the letters of their references, and what is rated.
type rule struct{ prefix, letters, what string }

// ruleOf takes letters in whatever case a schematic has them.
func ruleOf(prefix, letters, what string) rule { return rule{prefix, strings.ToUpper(letters), what} }

// derate takes the rules of the cells. Where they changed, the cells with
// parts are computed again.
func (n *Note) derate(errs map[*node][]*cell.Error) {
	policies := map[rule]float64{}
	first := map[rule]*node{}
	for _, c := range n.all() {
		for _, d := range c.parsed.Policies() {
			if n.owner[c.prefix()+"Derate"] != nil {
				continue // the note's own name
			}
			k := ruleOf(c.prefix(), d.Letters, d.What)
			if other := first[k]; other != nil {
				where := "twice in " + c.Label
				if other != c {
					where = "twice: here, in " + c.Label + ", and in " + other.Label
				}
				errs[c] = append(errs[c], c.parsed.ErrorAtPolicy(d, cell.CodeTwice, "the derating of "+d.What+" is stated "+where, "a note has one such rule"))
				continue
			}
			first[k], policies[k] = c, d.Share
		}
	}
	before := n.policies
	n.policies = policies
	if maps.Equal(before, policies) {
		return
	}
	for _, c := range n.all() {
		if c.parsed.HasParts() {
			c.settled = false
		}
	}
}

// policy is the share of a rating that may be used: the rule for the letters
// of the reference, else that for all parts, else all of it.
func (n *Note) policy(c *node, reference, what string) float64 {
	key := n.policyKey(c, reference, what)
	if share, ok := n.policies[key]; ok {
		return share
	}
	return 1
}

// policyKey is the rule that applies to a rating.
func (n *Note) policyKey(c *node, reference, what string) rule {
	key := ruleOf(c.prefix(), cell.Letters(reference), what)
	if _, ok := n.policies[key]; !ok {
		key.letters = ""
	}
	return key
}
