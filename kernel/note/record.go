package note

import (
	"math"
	"slices"
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// Record is what a cell's results are for another program: it stands beside
// the stored outputs of a note and in what run --json prints.
type Record struct {
	Values       map[string]ValueRecord `json:"values"`
	Requirements []RequirementRecord    `json:"requirements"`
	BoardRecord
	// LeftOut counts the items that lists and the like have beyond those recorded,
	// and the bytes of texts, by the name of the value.
	LeftOut map[string]int `json:"left_out,omitempty"`
	// Files are those that the cell reads, each with the first digits of its
	// SHA-256 at the time.
	Files map[string]string `json:"files,omitempty"`
}

// RecordKey is where the record stands in the metadata of an output.
const RecordKey = "ohmwright"

// ValueRecord is one value. A structure is recorded field by field, as
// "rail.Vout", a list item by item, as "taps[2]".
type ValueRecord struct {
	SI          *float64 `json:"si"`   // in coherent SI; a level or gain in decibels of its unit; null for text and truth values
	Unit        string   `json:"unit"` // in SI symbols; "1" for a plain number, "" for text
	Text        string   `json:"text"`
	Cell        string   `json:"cell"`
	Description string   `json:"description"`
	Source      string   `json:"source"`
	Reason      string   `json:"reason"`
	Files       []string `json:"files,omitempty"` // that its definition reads
	// LowSI and HighSI are the extremes over all cases, StdSI the standard
	// deviation over boards with ranges at their usual value (kelvin of a
	// temperature, decibels of a level); Sources what makes it spread. They are
	// left out for an exact value, StdSI where no part is a matter of chance.
	LowSI   *float64 `json:"low_si,omitempty"`
	HighSI  *float64 `json:"high_si,omitempty"`
	StdSI   *float64 `json:"std_si,omitempty"`
	Sources []string `json:"sources,omitempty"`
}

// RequirementRecord is one requirement. MarginSI is null where it has none.
type RequirementRecord struct {
	Text        string        `json:"text"`
	ID          string        `json:"id,omitempty"`
	Description string        `json:"description,omitempty"`
	Source      string        `json:"source,omitempty"`
	Reason      string        `json:"reason,omitempty"`
	Waived      string        `json:"waived,omitempty"` // why it may fail
	Twice       string        `json:"twice,omitempty"`  // where else its identifier stands
	Rating      *RatingRecord `json:"rating,omitempty"`
	Holds       bool          `json:"holds"`
	MarginSI    *float64      `json:"margin_si"`
	Unit        string        `json:"unit"`   // of MarginSI and WorstMarginSI
	Margin      string        `json:"margin"` // as people write it
	// WorstMarginSI is the smallest margin of all cases and WorstCase what gives
	// it; left out where nothing spreads.
	WorstMarginSI *float64     `json:"worst_margin_si,omitempty"`
	WorstMargin   string       `json:"worst_margin,omitempty"`
	WorstCase     string       `json:"worst_case,omitempty"`
	Yield         *YieldRecord `json:"yield,omitempty"`
}

// YieldRecord is how many boards of those drawn meet a requirement, and the
// limits of that share for all boards with 95 % confidence.
type YieldRecord struct {
	Passed  int     `json:"passed"`
	Boards  int     `json:"boards"`
	Low     float64 `json:"low"`
	High    float64 `json:"high"`
	Assumed string  `json:"assumed"`
}

// NewRecord collects the values and requirements of a cell.
func NewRecord(r *Result) Record {
	rec := Record{Values: map[string]ValueRecord{}, Requirements: []RequirementRecord{}, LeftOut: map[string]int{}, Files: map[string]string{}}
	for _, f := range r.Files {
		rec.Files[f.Name] = f.Hash
	}
	for _, i := range r.Items {
		switch x := i.(type) {
		case *Entry:
			base := ValueRecord{Cell: r.Label, Description: x.Description, Source: x.Source, Reason: x.Reason}
			for _, f := range x.Files {
				base.Files = append(base.Files, f.Name)
			}
			base.Text, _ = x.Text()
			rec.add(x.Name, x.Value, base)
			if v, ok := rec.Values[x.Name]; ok && x.Spread != nil { // searched, where corners do not settle it
				v.LowSI, v.HighSI = finite(x.Spread.Low.SI()), finite(x.Spread.High.SI())
				rec.Values[x.Name] = v
			}
		case *Requirement:
			q := RequirementRecord{Text: x.Text, Holds: x.Holds, ID: x.ID, Description: x.Description, Source: x.Source, Reason: x.Reason, Waived: x.Waived, Twice: x.Twice}
			if k := x.Rating; k != nil {
				share, stress := x.Share()
				q.Rating = &RatingRecord{k.Reference, k.What, finite(k.Limit.SI()), finite(stress.SI()), finite(share), k.Policy}
			}
			if x.Margin != nil {
				q.MarginSI, q.Margin, q.Unit = finite(x.Margin.SI()), x.Margin.String(), x.Margin.SIUnit()
			}
			if x.Worst != nil {
				q.WorstMarginSI, q.WorstMargin, q.Unit = finite(x.Worst.SI()), x.Worst.String(), x.Worst.SIUnit()
			}
			q.WorstCase = x.WorstAll
			if y := x.Yield; y != nil {
				q.Yield = &YieldRecord{Passed: y.Passed, Boards: y.Boards, Low: y.Low, High: y.High, Assumed: y.Assumed}
			}
			rec.Requirements = append(rec.Requirements, q)
		default:
			rec.BoardRecord.add(i)
		}
	}
	return rec
}

// What a notebook file holds of a cell: so many values of one list or the like,
// so many in all, and so many bytes of a text.
const (
	storedItems = 100
	storedMost  = 2000
	storedText  = 10_000
)

// StoredRecord is NewRecord for a file that people open: of a long list or text
// it has the beginning.
func StoredRecord(r *Result) Record {
	short := *r
	short.Items = slices.Clone(r.Items)
	left := storedMost
	for i, item := range short.Items {
		if e, ok := item.(*Entry); ok {
			cut := *e
			cut.Value = cutView(e.Value, &left)
			short.Items[i] = &cut
		}
	}
	return NewRecord(&short)
}

func cutView(v cell.View, left *int) cell.View {
	if v.Kind == exec.KindText && len(v.Text) > storedText {
		text := strings.ToValidUTF8(v.Text[:storedText], "")
		v.Text, v.More = text, len(v.Text)-len(text)
	}
	*left--
	if len(v.Items) == 0 {
		return v
	}
	most := len(v.Items)
	if v.Kind != exec.KindRecord {
		most = min(most, storedItems)
	}
	var items []exec.Item
	for _, i := range v.Items[:most] {
		if *left <= 0 {
			break
		}
		i.Value = cutView(i.Value, left)
		items = append(items, i)
	}
	v.More += len(v.Items) - len(items)
	v.Items = items
	return v
}

// add records a value and its parts.
func (rec Record) add(name string, v cell.View, base ValueRecord) {
	v.Walk(name, func(name string, v cell.View) {
		if v.More > 0 {
			rec.LeftOut[name] = v.More
		}
		if one, ok := base.of(v); ok {
			rec.Values[name] = one
		}
	})
}

// of completes the record of a value that has no parts.
func (r ValueRecord) of(v cell.View) (ValueRecord, bool) {
	switch v.Kind {
	case exec.KindQuantity:
		q := v.Quantity.(units.Quantity)
		r.SI, r.Unit = finite(q.SI()), q.SIUnit()
		if r.Text == "" {
			r.Text = q.String()
		}
		if s := spreadOf(q); s != nil {
			r.LowSI, r.HighSI, r.Sources = finite(s.Low.SI()), finite(s.High.SI()), s.Sources
			if s.Std != nil {
				r.StdSI = finite(s.Std.SI())
			}
		}
	case exec.KindNumber:
		r.SI, r.Unit, r.Text = finite(v.Number), "1", v.Text
	case exec.KindBool, exec.KindText:
		r.Text = v.Text
	case exec.KindNil:
		r.Text = "nil"
	default:
		return r, false
	}
	return r, true
}

// finite gives a number that JSON can hold.
func finite(x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	return &x
}
