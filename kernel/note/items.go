package note

import (
	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// items makes what a cell shows of what its run gave.
func items(out *cell.Outcome, printed string, notices []cell.Located) []Item {
	var list []Item
	if printed != "" {
		list = append(list, &Printed{Text: printed})
	}
	for _, s := range out.Steps {
		switch {
		case s.Define != nil:
			list = append(list, entry(s.Define, s.Line))
		case s.Shown != nil:
			list = append(list, &Shown{Value: s.Shown.View, Formula: s.Shown.Formula, SpreadPending: spread(s.Shown.View)})
		case s.Require != nil:
			r := s.Require
			list = append(list, &Requirement{Text: r.Text, Condition: r.Condition, Holds: r.Holds, Margin: r.Margin, SpreadPending: r.Spread})
		}
	}
	for _, k := range notices {
		list = append(list, &Notice{Text: k.Text, Line: k.Line})
	}
	return list
}

func entry(d *cell.Definition, line int) *Entry {
	e := &Entry{Name: d.Name, Value: d.View, Formula: d.Formula, Description: d.About.Description, Source: d.About.Source,
		Reason: d.About.Reason, Quiet: d.Quiet, Line: line, Form: FormComputed}
	switch {
	case d.Choice != nil:
		e.Form = FormChosen
		k := d.Choice
		e.Choice = &Choice{Rule: k.Rule, Series: k.Series, Ideal: k.Ideal, Chosen: k.Chosen, Of: k.Of, Kept: k.Kept}
		if s := k.Ideal.SI(); s != 0 {
			e.Choice.Deviation = k.Chosen.SI()/s - 1
		}
	case d.Input:
		e.Form, e.Formula = FormInput, nil
	case d.View.Kind == exec.KindOther:
		e.Form = FormMade
	}
	if d.Set != "" {
		e.Source = "what-if: set to " + d.Set
		e.Reason = ""
	}
	if q, ok := d.View.Quantity.(units.Quantity); ok {
		if lo, hi, ok := q.Limits(); ok {
			e.Low, e.High = &lo, &hi
		} else {
			e.SpreadPending = q.HasSpread()
		}
	} else {
		e.SpreadPending = spread(d.View)
	}
	return e
}

// spread reports whether a value depends on an input with spread.
func spread(v cell.View) bool {
	if q, ok := v.Quantity.(units.Quantity); ok {
		return q.HasSpread()
	}
	for _, i := range v.Items {
		if spread(i.Value) {
			return true
		}
	}
	return false
}
