package render

import (
	"strings"
	"testing"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/note"
	"ohmwright/units"
)

// months is a list of records; the second field spreads by 10 %.
func months(n int, last ...exec.Item) *note.Entry {
	list := cell.View{Kind: exec.KindList, Type: "[]month"}
	for i := range n {
		volts := q("1V").Mul(units.Number(float64(i + 1)))
		items := []exec.Item{{Name: "No", Value: cell.View{Kind: exec.KindNumber, Number: float64(i + 1), Text: "1"}}, {Name: "U", Value: *quantityView(units.Tolerance(volts, q("10%")))}}
		if i == n-1 {
			items = append(items, last...)
		}
		list.Items = append(list.Items, exec.Item{Name: "[" + count(i) + "]", Value: cell.View{Kind: exec.KindRecord, Type: "month", Items: items}})
	}
	return &note.Entry{Name: "m", Value: list}
}

// Like records are a table, with the limits in the row below; where that is too
// wide in two, and then one field below the other. The widths are counted by hand.
func TestLikeRecords(t *testing.T) {
	t.Parallel()
	wide := "m   []month\n            No             U\n      [0]    1           1 V\n                 0.9 … 1.1 V\n      [1]    2           2 V\n                 1.8 … 2.2 V\n      [2]    3           3 V\n                 2.7 … 3.3 V\n"
	narrow := "m   []month\n           No      U\n      [0]   1    1 V\n               0.9 …\n               1.1 V\n      [1]   2    2 V\n               1.8 …\n               2.2 V\n      [2]   3    3 V\n               2.7 …\n               3.3 V\n"
	for width, want := range map[int]string{0: wide, 28: wide, 27: narrow, 20: narrow} {
		if got := Text([]note.Item{months(3)}, Options{Width: width}); got != want {
			t.Errorf("width %d:\n%s, want\n%s", width, got, want)
		}
	}
	for why, e := range map[string]*note.Entry{"two": months(2), "not alike": months(3, exec.Item{Name: "x", Value: cell.View{Kind: exec.KindNumber}})} {
		if got := Text([]note.Item{e}, Options{}); !strings.Contains(got, "[0]   month\n") {
			t.Errorf("%s:\n%s", why, got)
		}
	}
	if got := Text([]note.Item{months(3)}, Options{Width: 19}); !strings.Contains(got, "[0]   month\n") {
		t.Errorf("too narrow:\n%s", got)
	}
}

// The other flavours say the same.
func TestLikeRecordsElsewhere(t *testing.T) {
	t.Parallel()
	items := []note.Item{months(3)}
	if got, want := Markdown(items), "  - \\[0\\]: No 1, U 1 V (0.9 … 1.1 V)\n"; !strings.Contains(got, want) {
		t.Errorf("Markdown:\n%s, want %s", got, want)
	}
	if got, want := LaTeX(items), `\begin{array}{lrr} & \text{No} & \text{U} \\ \text{[0]} & \text{1} & \text{1 V (0.9 … 1.1 V)} \\`; !strings.Contains(got, want) {
		t.Errorf("LaTeX:\n%s, want %s", got, want)
	}
	html := HTML(items, TeX)
	if want := "1\u00a0V<br/><span class=\"ow-spread\">0.9\u00a0… 1.1\u00a0V</span></td></tr>"; !strings.Contains(html, want) || strings.Count(html, "<i>U</i>") != 1 {
		t.Errorf("HTML:\n%s, want %s", html, want)
	}
}
