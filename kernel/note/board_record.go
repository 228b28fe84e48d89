package note

import "ohmwright/units"

// BoardRecord is what a cell says of the board, for another program.
type BoardRecord struct {
	Parts    []PartRecord     `json:"parts,omitempty"`
	Policies []PolicyRecord   `json:"derating,omitempty"`
	Waivers  []WaiverRecord   `json:"waivers,omitempty"`
	Cases    []CaseRecord     `json:"cases,omitempty"`
	Measured []MeasuredRecord `json:"measured,omitempty"`
}

// PartRecord is a part of the schematic. SI is null and Unit "" where its value
// is a text. Tolerance is a share, left out where
// the limits do not lie alike on both sides.
type PartRecord struct {
	Reference   string   `json:"reference"`
	Name        string   `json:"name,omitempty"`
	Text        string   `json:"text"`
	SI          *float64 `json:"si"`
	Unit        string   `json:"unit"`
	LowSI       *float64 `json:"low_si,omitempty"`
	HighSI      *float64 `json:"high_si,omitempty"`
	Tolerance   *float64 `json:"tolerance,omitempty"`
	Series      string   `json:"series,omitempty"`
	IdealSI     *float64 `json:"ideal_si,omitempty"`
	Deviation   *float64 `json:"deviation,omitempty"`
	Would       string   `json:"would,omitempty"` // what it would be under the what-if
	Description string   `json:"description,omitempty"`
	Source      string   `json:"source,omitempty"`
	Reason      string   `json:"reason,omitempty"`
	Twice       string   `json:"twice,omitempty"`
}

// RatingRecord is a rating of a part: shares are of the rating.
type RatingRecord struct {
	Reference string   `json:"reference"`
	What      string   `json:"what"`
	RatingSI  *float64 `json:"rating_si"`
	StressSI  *float64 `json:"stress_si"`
	Share     *float64 `json:"share"`
	Policy    float64  `json:"policy"`
}

// PolicyRecord is a rule of derating.
type PolicyRecord struct {
	Letters string  `json:"letters,omitempty"`
	What    string  `json:"what"`
	Share   float64 `json:"share"`
	Ratings int     `json:"ratings"`
}

// WaiverRecord is a Waive.
type WaiverRecord struct {
	ID      string `json:"id"`
	Reason  string `json:"reason"`
	Trouble string `json:"trouble,omitempty"`
}

// CaseRecord is an operating case with the requirements that it touches.
type CaseRecord struct {
	Name         string            `json:"name"`
	Inputs       map[string]string `json:"inputs"`
	Holds        bool              `json:"holds"`
	Requirements []InCaseRecord    `json:"requirements,omitempty"`
	Would        map[string]string `json:"would,omitempty"`
	Trouble      string            `json:"trouble,omitempty"`
	Twice        string            `json:"twice,omitempty"`
}

// InCaseRecord is a requirement in a case.
type InCaseRecord struct {
	Text          string   `json:"text"`
	Holds         bool     `json:"holds"`
	Waived        string   `json:"waived,omitempty"`
	MarginSI      *float64 `json:"margin_si"`
	WorstMarginSI *float64 `json:"worst_margin_si,omitempty"`
	WorstCase     string   `json:"worst_case,omitempty"`
}

// MeasuredRecord is a reading beside what was computed.
type MeasuredRecord struct {
	Name      string   `json:"name,omitempty"`
	SI        *float64 `json:"si"`
	LowSI     *float64 `json:"low_si"`
	HighSI    *float64 `json:"high_si"`
	ReadingSI *float64 `json:"reading_si"`
	FromSI    *float64 `json:"reading_low_si"`
	ToSI      *float64 `json:"reading_high_si"`
	How       string   `json:"how"`
	Verdict   string   `json:"verdict"` // "inside", "may be inside", "outside"
}

func (f Fit) String() string { return [...]string{"inside", "may be inside", "outside"}[f] }

// add records an item of the board.
func (b *BoardRecord) add(it Item) {
	number := func(q *units.Quantity) *float64 {
		if q == nil {
			return nil
		}
		return finite(q.SI())
	}
	switch x := it.(type) {
	case *Part:
		p := PartRecord{Reference: x.Reference, Name: x.Name, Text: x.Text(), SI: finite(x.Value.SI()), Unit: x.Value.SIUnit(), LowSI: number(x.Low), HighSI: number(x.High), Twice: x.Twice}
		if x.Words != "" {
			p.SI, p.Unit = nil, ""
		}
		if share, ok := x.Tolerance(); ok {
			p.Tolerance = &share
		}
		if e := x.Entry; e != nil {
			p.Description, p.Source, p.Reason = e.Description, e.Source, e.Reason
			if c := e.Choice; c != nil && e.Name == x.Name {
				p.Series, p.IdealSI, p.Deviation = c.Series, finite(c.Ideal.SI()), finite(c.Deviation)
				if c.Would != nil {
					p.Would = c.Would.AsBought()
				}
			}
		}
		b.Parts = append(b.Parts, p)
	case *Policy:
		b.Policies = append(b.Policies, PolicyRecord(*x))
	case *Waiver:
		b.Waivers = append(b.Waivers, WaiverRecord(*x))
	case *Operating:
		c := CaseRecord{Name: x.Name, Inputs: map[string]string{}, Holds: x.Holds, Trouble: x.Trouble, Twice: x.Twice}
		for _, i := range x.Inputs {
			c.Inputs[i.Name] = i.Text()
		}
		for _, j := range x.Judged {
			c.Requirements = append(c.Requirements, InCaseRecord{j.Text, j.Holds, j.Waived, number(j.Margin), number(j.Worst), j.WorstAll})
		}
		for _, w := range x.Would {
			if c.Would == nil {
				c.Would = map[string]string{}
			}
			c.Would[w.Name] = w.Then.AsBought()
		}
		b.Cases = append(b.Cases, c)
	case *Measurement:
		b.Measured = append(b.Measured, MeasuredRecord{x.Name, finite(x.Value.SI()), finite(x.Low.SI()), finite(x.High.SI()),
			finite(x.Reading.SI()), finite(x.From.SI()), finite(x.To.SI()), x.How, x.Verdict.String()})
	}
}

// Join adds what another cell says of the board.
func (b *BoardRecord) Join(o BoardRecord) {
	b.Parts, b.Policies, b.Waivers = append(b.Parts, o.Parts...), append(b.Policies, o.Policies...), append(b.Waivers, o.Waivers...)
	b.Cases, b.Measured = append(b.Cases, o.Cases...), append(b.Measured, o.Measured...)
}
