package host_test

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"ohmwright/units"
)

// The bound is no less than what the call really makes.
func TestCostIsABound(t *testing.T) {
	t.Parallel()
	w := load(t)
	long := strings.Repeat("Ω\xff", 500)
	list := []any{1e308, long, units.Number(math.Pi), []float64{1, -1e-300}, map[string]any{"a": []string{long, long}}, struct{ A, B any }{1, long}, nil, true}
	for _, format := range []string{"%v", "%+v %[1]v", "%[2]q", "%[2]x", "%[2]# x", "%[1]f", "%[1]5000.3f", "%[4]v", "%[5]v%[5]v", "%[7]v", "%[6]*v", "%d %s %v %v %v %v %v %v"} {
		got := w.Cost("fmt", "Sprintf", values(format, list))
		if real := len(fmt.Sprintf(format, list...)); got < int64(real) {
			t.Errorf("Sprintf(%q) makes %d bytes, the bound is %d", format, real, got)
		}
	}
	for _, c := range []struct {
		name string
		args []any
		real int
	}{
		{"strings.Repeat", []any{"abc", 1000}, 3000},
		{"strings.Repeat", []any{"abc", -1}, 0},
		{"strings.Join", []any{[]string{"a", "bb", "c"}, long}, len(strings.Join([]string{"a", "bb", "c"}, long))},
		{"strings.Replace", []any{"aaaa", "", long, -1}, len(strings.Replace("aaaa", "", long, -1))},
		{"strings.ReplaceAll", []any{"aaaa", "a", long}, 4 * len(long)},
		{"strings.Builder.Grow", []any{&strings.Builder{}, 1000}, 1000},
		{"strings.Builder.WriteString", []any{&strings.Builder{}, "abcd"}, 4},
		{"strings.Builder.Write", []any{&strings.Builder{}, []byte("abcd")}, 4},
		{"strconv.FormatFloat", []any{math.MaxFloat64, byte('f'), 2000, 64}, len(strconv.FormatFloat(math.MaxFloat64, 'f', 2000, 64))},
		{"strconv.AppendFloat", []any{[]byte{}, 1.0, byte('f'), 2000, 64}, 2002},
		{"ohmwright/units.Quantity.Text", []any{units.Number(math.Pi * 1e-9), 30}, len(units.Number(math.Pi * 1e-9).Text(30))},
		{"ohmwright/units.Column", []any{30, []units.Quantity{units.Number(math.Pi), units.Number(2)}}, len(strings.Join(units.Column(30, units.Number(math.Pi), units.Number(2)), ""))},
		{"fmt.Sprint", []any{list}, len(fmt.Sprint(list...))},
		{"fmt.Sprintln", []any{list}, len(fmt.Sprintln(list...))},
		{"fmt.Append", []any{[]byte{}, list}, len(fmt.Sprint(list...))},
		{"fmt.Appendf", []any{[]byte{}, "%[2]q", list}, len(fmt.Sprintf("%[2]q", list...))},
	} {
		slash := strings.LastIndex(c.name, "/") + 1
		pkg, name, _ := strings.Cut(c.name[slash:], ".")
		pkg = c.name[:slash] + pkg
		got := w.Cost(pkg, name, values(c.args...))
		if got < int64(c.real) || got > 100*int64(c.real)+1e6 {
			t.Errorf("%s%.60v makes %d bytes, the bound is %d", c.name, c.args, c.real, got)
		}
	}
}

func values(args ...any) (list []reflect.Value) {
	for _, a := range args {
		list = append(list, reflect.ValueOf(a))
	}
	return list
}

// What would end the process is more than any limit.
func TestCostOfWhatWouldEndTheProcess(t *testing.T) {
	t.Parallel()
	w := load(t)
	itself := []any{nil}
	itself[0] = itself
	doubled := any("x")
	for range 60 {
		doubled = []any{doubled, doubled}
	}
	for _, c := range []struct {
		pkg, name string
		args      []any
	}{
		{"strings", "Repeat", []any{strings.Repeat("x", 1000), math.MaxInt}},
		{"strings", "Builder.Grow", []any{&strings.Builder{}, 1 << 40}},
		{"ohmwright/units", "Quantity.Text", []any{units.Number(1), 1 << 40}},
		{"strconv", "FormatFloat", []any{1.0, byte('f'), 1 << 40, 64}},
		{"strings", "Join", []any{make([]string, 1<<20), strings.Repeat("x", 1<<20)}},
		{"fmt", "Sprintf", []any{strings.Repeat("%[1]s", 1<<20), []any{strings.Repeat("x", 1<<20)}}},
		{"fmt", "Sprintf", []any{strings.Repeat("%999999d", 1<<20), []any{1}}},
		{"fmt", "Sprint", []any{itself}},
		{"fmt", "Println", []any{[]any{doubled}}},
	} {
		if got := w.Cost(c.pkg, c.name, values(c.args...)); got < 1e11 {
			t.Errorf("%s.%s: the bound is %d", c.pkg, c.name, got)
		}
	}
	if got := w.Cost("math", "Sqrt", values(2.0)); got != 0 {
		t.Errorf("math.Sqrt costs %d", got)
	}
}
