package cell_test

import (
	"testing"

	"ohmwright/kernel/cell"
)

// What is finished follows from Go's grammar; the indent is gofmt's, one tab
// a level.
func TestFinish(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ code, status, indent, why string }{
		{"", "complete", "", "nothing"},
		{"x := 3V", "complete", "", ""},
		{"x := 3V // more +", "complete", "", "an operator in a comment"},
		{"// text", "complete", "", ""},
		{"for i := range 3 {\n\tx += i\n}", "complete", "", ""},
		{"x := 3V +", "incomplete", "\t", "an operator at the end"},
		{"x := 3V + // more", "incomplete", "\t", "with a comment behind it"},
		{"x := 3V +\n\t4V *", "incomplete", "\t", "one tab for all lines of a statement"},
		{"x := 5V ±", "incomplete", "\t", "± is an operator"},
		{"x := a &&", "incomplete", "\t", ""},
		{"x, y :=", "incomplete", "\t", ""},
		{"x := d.", "incomplete", "\t", "a point"},
		{"x := f(", "incomplete", "\t", "an open bracket"},
		{"x := f(a,\n\tb,", "incomplete", "\t", "inside it the present indent"},
		{"x := f(a,\n\t\tb,", "incomplete", "\t\t", "whatever that is"},
		{"d := T{\n\ta: 1,", "incomplete", "\t", ""},
		{"func f() {", "incomplete", "\t", ""},
		{"func f() {\n\tif a {", "incomplete", "\t\t", ""},
		{"func f() {\n\tif a {\n\t\tb()\n\t}", "incomplete", "\t", "behind a closing line"},
		{"func f() {\n\tif a {\n\t\tb()\n\t\t}", "incomplete", "\t", "also where that was not moved left"},
		{"if a {\n\tx := 1 +\n\t\t2", "incomplete", "\t", "back behind a statement of several lines"},
		{"f(func(a Quantity) Quantity {", "incomplete", "\t", ""},
		{"  if x {", "incomplete", "  \t", "the indent of the line goes on"},
		{"if x {\n} else {", "incomplete", "\t", ""},
		{"if x {\n} else", "incomplete", "", ""},
		{"switch x {\ncase 1:", "incomplete", "\t", "below a case"},
		{"switch x {\ncase 1:\n\ty()", "incomplete", "\t", ""},
		{"func f()", "incomplete", "", "a function without its body"},
		{"for", "incomplete", "", ""},
		{"var x", "incomplete", "", "a variable without type or value"},
		{"type T struct {\n\ta int", "incomplete", "\t", ""},
		{"import (", "incomplete", "\t", ""},
		{"/* text", "incomplete", "", "an open comment"},
		{"\t/* text\n\tmore", "incomplete", "\t", ""},
		{"x := `text", "incomplete", "", "an open raw string: its white space is the user's"},
		{"x := \"text", "invalid", "", "an open string ends at its line"},
		{"x := 10k", "invalid", "", "nothing behind it makes it a literal"},
		{"x := 10k + (", "invalid", "", ""},
		{"x := )", "invalid", "", "a bracket too many"},
		{"x := 3 := 4", "invalid", "", ""},
		{"if x {\n\ty := := 3", "invalid", "", "an error inside what is open"},
		{"go f()", "invalid", "", "refused whatever follows"},
		{"x := 1V 2V", "invalid", "", ""},
	} {
		if status, indent := cell.Finish(c.code); status != c.status || indent != c.indent {
			t.Errorf("%q (%s): %s %q, want %s %q", c.code, c.why, status, indent, c.status, c.indent)
		}
	}
}
