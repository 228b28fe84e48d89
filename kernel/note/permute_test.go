package note_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestLinesInAnyOrder holds that a cell of definitions gives the same whatever
// order its lines are in: each uses names that other lines define, directly or
// through a function, a closure or a method of the cell.
func TestLinesInAnyOrder(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 8).Draw(t, "lines")
		var lines []string
		for i := range n {
			use := func() string {
				if i == 0 {
					return "1V"
				}
				return fmt.Sprintf("x%d", rapid.IntRange(0, i-1).Draw(t, "uses"))
			}
			a, b := use(), use()
			switch rapid.IntRange(0, 5).Draw(t, "form") {
			case 0:
				lines = append(lines, fmt.Sprintf("x%d := %s + 2*%s", i, a, b))
			case 1:
				lines = append(lines, fmt.Sprintf("func f%d() Quantity { return %s - %s*3 }", i, a, b), fmt.Sprintf("x%d := f%d()", i, i))
			case 2:
				lines = append(lines, fmt.Sprintf("c%d := func(k float64) Quantity { return %s*k + %s }", i, a, b), fmt.Sprintf("x%d := c%d(2)", i, i))
			case 3:
				lines = append(lines, fmt.Sprintf("type t%d struct{ q Quantity }", i), fmt.Sprintf("func (t t%d) m() Quantity { return t.q + %s }", i, a), fmt.Sprintf("x%d := t%d{%s}.m()", i, i, b))
			case 4:
				lines = append(lines, fmt.Sprintf("l%d := []Quantity{%s, %s}", i, a, b), fmt.Sprintf("x%d := l%d[0] + l%d[1]", i, i, i))
			case 5:
				lines = append(lines, fmt.Sprintf("x%d, y%d := %s*2, %s", i, i, a, b))
			}
		}
		_, sorted := compute(t, strings.Join(lines, "\n"))
		_, mixed := compute(t, strings.Join(rapid.Permutation(lines).Draw(t, "order"), "\n"))
		if e := firstError(sorted); e != nil {
			t.Fatalf("in order: %s", e)
		}
		if e := firstError(mixed); e != nil {
			t.Fatalf("mixed: %s", e)
		}
		for i := range n {
			name := fmt.Sprint("x", i)
			if a, b := text(sorted, name), text(mixed, name); a != b {
				t.Fatalf("%s is %s in order and %s mixed", name, a, b)
			}
		}
	})
}
