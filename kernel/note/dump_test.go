package note_test

import (
	"encoding/json"
	"fmt"
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/note"
)

// dump writes everything that results say, for comparison: what faces record,
// what they show, and the errors with their places.
func dump(rs []*note.Result) string {
	var b strings.Builder
	for _, r := range rs {
		fmt.Fprintf(&b, "%s: state %d\n", r.Label, r.State)
		for _, e := range r.Errors {
			fmt.Fprintf(&b, "  %d:%d %s: %s [%s] %q\n", e.Line, e.Column, e.Code, e, e.Cell, e.Frames)
		}
		record, err := json.Marshal(note.NewRecord(r))
		fmt.Fprintf(&b, "  %s %v\n", record, err)
		for _, i := range r.Items {
			switch x := i.(type) {
			case *note.Entry:
				fmt.Fprintf(&b, "  %s %s form %d quiet %v %s\n", x.Name, view(x.Value), x.Form, x.Quiet, tree(x.Formula))
			case *note.Shown:
				fmt.Fprintf(&b, "  shown %s %s\n", view(x.Value), tree(x.Formula))
			case *note.Requirement:
				fmt.Fprintf(&b, "  requires %s %v %v %s\n", x.Text, x.Holds, x.Margin, tree(x.Condition))
			case *note.Printed:
				fmt.Fprintf(&b, "  printed %q\n", x.Text)
			case *note.Notice:
				fmt.Fprintf(&b, "  notice %d %s\n", x.Line, x.Text)
			}
		}
	}
	return b.String()
}

func view(v cell.View) string {
	s := fmt.Sprintf("%d %s %q %v", v.Kind, v.Type, v.Text, v.Quantity)
	for _, i := range v.Items {
		s += " " + i.Name + "=(" + view(i.Value) + ")"
	}
	return s
}

// tree writes a formula with the values of its parts.
func tree(e *cell.Expr) string {
	if e == nil {
		return "-"
	}
	s := fmt.Sprintf("{%d %q", e.Kind, e.Text)
	if e.Value != nil {
		s += " = " + e.Value.Text
	}
	for _, a := range e.Args {
		s += " " + tree(a)
	}
	return s + "}"
}
