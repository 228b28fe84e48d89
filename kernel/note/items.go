package note

import (
	"fmt"

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
			list = append(list, &Shown{Value: s.Shown.View, Formula: s.Shown.Formula})
		case s.Require != nil:
			r := s.Require
			q := &Requirement{Text: r.Text, Condition: r.Condition, Holds: r.Holds, Nominal: r.Holds, FailsWhere: r.FailsWhere, WorstAll: r.FailsAll, live: r.Margin, strict: r.Strict, key: s.Key, Line: s.Line,
				ID: identifierOf(r.Text), Description: r.About.Description, Source: r.About.Source, Reason: r.About.Reason}
			if k := r.Rating; k != nil {
				q.ID, q.Rating = "", &Rated{Reference: k.Reference, What: k.What, Limit: k.Limit, Policy: k.Policy, Stress: r.Stress}
			}
			if r.Margin != nil && !r.Unreached {
				m := units.Nominal(*r.Margin)
				q.Margin = &m
			}
			list = append(list, q)
		case s.Spread != nil:
			list = append(list, &Spreading{Formula: s.Spread.Formula, Value: units.Nominal(s.Spread.Value), live: s.Spread.Value, key: s.Key})
		case s.Why != "":
			list = append(list, &Derivation{Of: s.Why})
		case s.Markdown != nil:
			list = append(list, &Prose{Text: s.Markdown.Text, names: s.Markdown.Names})
		case s.Figure != nil:
			list = append(list, &Plotted{Figure: s.Figure.Figure, Tree: s.Figure.Tree, Formula: s.Figure.Formula})
		case s.Part != nil, s.Derate != nil, s.Waive != nil, s.Case != nil, s.Measured != nil:
			list = append(list, partItem(s))
			if s.Part != nil {
				if text := s.Part.Unusual(); text != "" {
					list = append(list, &Notice{Text: text, Line: s.Line})
				}
			}
		case s.Notice != "":
			list = append(list, &Notice{Text: s.Notice, Line: s.Line})
		}
	}
	for _, i := range list {
		switch x := i.(type) {
		case *Entry:
			if !x.Quiet {
				list = append(list, cutNotice(x.Name+" has", x.Value)...)
			}
		case *Shown:
			list = append(list, cutNotice("this is the beginning of", x.Value)...)
		}
	}
	for _, k := range notices {
		list = append(list, &Notice{Text: k.Text, Line: k.Line})
	}
	return list
}

// cutNotice says how to see what a page has no room for.
func cutNotice(has string, v cell.View) []Item {
	how := "print %s in parts, each in a cell of its own"
	switch {
	case v.More > 0:
		return []Item{&Notice{Text: fmt.Sprintf("%s %d items: to see all, "+how, has, len(v.Items)+v.More, "them")}}
	case v.Kind == exec.KindText && len(v.Text) > 1<<20:
		return []Item{&Notice{Text: fmt.Sprintf("%s %d MB of text: to see all, "+how, has, len(v.Text)>>20, "it")}}
	}
	return nil
}

func entry(d *cell.Definition, line int) *Entry {
	e := &Entry{Name: d.Name, Value: d.View, Formula: d.Formula, Description: d.About.Description, Source: d.About.Source,
		Reason: d.About.Reason, Quiet: d.Quiet, Line: line, Form: FormComputed}
	switch {
	case d.Choice != nil:
		e.Form = FormChosen
		k := d.Choice
		e.Choice = &Choice{Rule: k.Rule, Series: k.Series, Ideal: k.Ideal, Chosen: k.Chosen, Of: k.Of, Kept: k.Kept, Would: k.Would}
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
	return e
}
