package units

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

// Percentiles of distributions known exactly: of n boards the count below the
// exact percentile is binomial, and five of its standard deviations are
// allowed; the percentile that is told has that many boards below it.
func TestExactDistributions(t *testing.T) {
	t.Parallel()
	const n = 100_000
	s := NewStudy(StudyOptions{Boards: n})
	sum := func(parts int) Quantity {
		x := Number(0)
		for i := range parts {
			key := "u" + strconv.Itoa(i)
			x = x.Add(s.Place(key, key, Tolerance(Number(0), Number(1))))
		}
		return x
	}
	part := func(key string) Quantity { return s.Place(key, key, Tolerance(Number(1), q("1 %"))) }
	values := map[string]Quantity{
		"uniform-sum-1": sum(1), "uniform-sum-2": sum(2), "uniform-sum-3": sum(3), "uniform-sum-4": sum(4),
		"divider-two-1-percent": lower(part("a"), part("b")),
		"normal":                s.Place("n", "n", Tolerance(Number(0), Normal(Number(3), 3))),
	}
	checked := 0
	for _, r := range readTable(t, "exact.csv") {
		y, ok := values[r["case"]]
		if !ok {
			continue // Clopper and Pearson's limits are of yields, which notes tell
		}
		quantity, want := r["quantity"], r.number(t, "value")
		std, _ := y.Std()
		share := func(of func(v float64) bool) float64 {
			k := 0
			for _, v := range boardsOf(y) {
				if of(v) {
					k++
				}
			}
			return float64(k) / n
		}
		binomial := func(got, p float64) {
			if math.Abs(got-p) > 5*math.Sqrt(p*(1-p)/n) {
				t.Errorf("%s: %s: a share of %v, want %v", r["case"], quantity, got, p)
			}
		}
		within := func(got, tolerance float64) {
			if math.Abs(got-want) > tolerance {
				t.Errorf("%s: %s %v, want %v ± %v", r["case"], quantity, got, want, tolerance)
			}
		}
		words := strings.Fields(quantity)
		checked++
		switch {
		case quantity == "low":
			within(Low(y).SI(), 1e-12)
		case quantity == "high":
			within(High(y).SI(), 1e-12)
		case quantity == "std":
			within(std.SI(), 5*want/math.Sqrt(2*n))
		case quantity == "mean":
			mean := 0.0
			for _, v := range boardsOf(y) {
				mean += v / n
			}
			within(mean, 5*std.SI()/math.Sqrt(n))
		case words[0] == "below":
			limit := row{"x": words[1]}.number(t, "x")
			binomial(share(func(v float64) bool { return v < limit }), want)
		case words[0] == "outside":
			limit := row{"x": words[1]}.number(t, "x")
			binomial(share(func(v float64) bool { return math.Abs(v) > limit }), want)
		case words[0] == "share": // share within 0.5 -/+ 0.002
			limit := row{"x": words[4]}.number(t, "x")
			binomial(share(func(v float64) bool { return math.Abs(v-0.5) < limit }), want)
		case words[0] == "fewest" || words[0] == "most":
			boards := int(row{"n": words[2]}.number(t, "n"))
			x := NewStudy(StudyOptions{Boards: boards}).Place("n", "n", Tolerance(Number(0), Normal(Number(3), 3)))
			k := 0.0
			for _, v := range boardsOf(x) {
				if math.Abs(v) > 3 {
					k++
				}
			}
			if words[0] == "fewest" && k < want || words[0] == "most" && k > want {
				t.Errorf("%v of %d outside 3 sigma; %s %v", k, boards, words[0], want)
			}
		case quantity[0] == 'p':
			p := row{"p": quantity[1:]}.number(t, "p")
			binomial(share(func(v float64) bool { return v < want }), p/100)
			told, ok := y.Percentile(p)
			if below := share(func(v float64) bool { return v < told.SI() }); !ok || math.Abs(below-p/100) > 1.0/n {
				t.Errorf("%s: %v of the boards lie below percentile %v", r["case"], below, p)
			}
		default:
			t.Errorf("%s: the quantity %q is not known", r["case"], quantity)
		}
	}
	if checked < 70 {
		t.Errorf("%d figures only", checked)
	}
}

// boardsOf are the numbers on the boards drawn.
func boardsOf(y Quantity) []float64 { return y.e.lanes[y.e.set.flatAt(y.e.study):] }
