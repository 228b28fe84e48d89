package units

import (
	"strings"
	"testing"
)

// y = V·(10·A + B + 0.1·C): at equal tolerances A moves it most and C least,
// by the coefficients; a range comes before all of them.
func TestDescribeNamesFirstWhatMatters(t *testing.T) {
	t.Parallel()
	s := NewStudy(StudyOptions{Boards: 10})
	part := func(name string) Quantity { return s.Place(name, name, Tolerance(MustParse("1kΩ"), MustParse("1%"))) }
	a, b, c := part("A"), part("B"), part("C")
	v := s.Place("V", "V", Range(MustParse("9.999V"), MustParse("10V"), MustParse("10.001V")))
	y := v.Mul(c.Mul(Number(0.1)).Add(b).Add(a.Mul(Number(10))))
	_, high, _ := y.Extremes()
	if got, want := y.Describe(high.Case), "V is 10 V, A is 1.01 kΩ, B is 1.01 kΩ, C is 1.01 kΩ"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	// Twelve parts alike are named in order, the first five of them.
	sum := Number(0).Mul(a)
	for _, name := range []string{"L", "K", "J", "I", "H", "G", "F", "E", "D"} {
		sum = sum.Add(part(name))
	}
	_, high, _ = sum.Extremes()
	if got, want := sum.Describe(high.Case), "D is 1.01 kΩ, E is 1.01 kΩ, F is 1.01 kΩ, G is 1.01 kΩ, H is 1.01 kΩ, 5 more"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	// All of them; A, which moves nothing, stands at either end.
	if got, want := sum.DescribeAll(high.Case), "D is 1.01 kΩ, E is 1.01 kΩ, F is 1.01 kΩ, G is 1.01 kΩ, H is 1.01 kΩ, I is 1.01 kΩ, J is 1.01 kΩ, K is 1.01 kΩ, L is 1.01 kΩ, A is "; !strings.HasPrefix(got, want) {
		t.Errorf("%s, want %s", got, want)
	}
	if got := s.DescribeAll(high.Case); !strings.HasPrefix(got, "A is ") || !strings.HasSuffix(got, "K is 1.01 kΩ, L is 1.01 kΩ") {
		t.Error(got)
	}
	if got := MustParse("1V").Describe(Case{}); got != "every value is nominal" {
		t.Errorf("an exact value: %s", got)
	}
}
