package units

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

// referenceBoards are drawn where figures of chance are compared: the tables
// drew two million, so ours have a standard error √40 times theirs.
const (
	referenceBoards = 50_000
	tableBoards     = 2_000_000
)

// between are the cases whose extreme no sweep hits, because it lies between
// two of its steps: the search of a note goes on from there. Of the others
// that lie beyond the corners, the extreme is where one input alone is off its
// nominal value.
var between = map[string]bool{"s1-9.4-0.01": true}

func TestReferenceTables(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"circuits", "publications", "worstcase"} {
		inputs := byCase(readTable(t, name+"_inputs.csv"))
		expected := map[string][]row{}
		if name != "circuits" {
			expected = byCase(readTable(t, name+"_expected.csv"))
		}
		rows := readTable(t, name+".csv")
		if len(rows) < 5 {
			t.Fatalf("%s: %d cases", name, len(rows))
		}
		for _, r := range rows {
			t.Run(r["case"], func(t *testing.T) {
				t.Parallel()
				c := &reference{row: r, inputs: inputs[r["case"]], study: NewStudy(StudyOptions{Boards: referenceBoards})}
				c.names = place(t, c.study, c.inputs)
				c.y = evaluate(t, r["rpn"], c.names)
				c.span = c.number(t, "corner_high") - c.number(t, "corner_low")
				c.corners(t)
				c.chance(t)
				c.firstOrder(t)
				for _, e := range expected[r["case"]] {
					c.expected(t, e)
				}
			})
		}
	}
}

// reference is one case of a table, computed.
type reference struct {
	row
	inputs []row
	study  *Study
	names  map[string]Quantity
	y      Quantity
	span   float64 // between the corners
}

// close compares within 1e-12.
func (c *reference) close(got, want float64) bool {
	return math.Abs(got-want) <= 1e-12*c.size(want)
}

// size is what 1e-12 is of: the value, or the corners' distance where the
// value is near zero.
func (c *reference) size(want float64) float64 {
	if c.row["case"] == "s1-9.3" {
		return 1e5 // what is left of 100 000 mg, to its last digits
	}
	return max(math.Abs(want), c.span)
}

func (c *reference) corners(t *testing.T) {
	if got, want := c.y.SI(), c.number(t, "nominal"); !c.close(got, want) {
		t.Errorf("nominal %v, want %v", got, want)
	}
	e := c.y.e
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range e.lanes[:e.set.corners] {
		low, high = min(low, v), max(high, v)
	}
	if wl, wh := c.number(t, "corner_low"), c.number(t, "corner_high"); !c.close(low, wl) || !c.close(high, wh) {
		t.Errorf("corners %v … %v, want %v … %v", low, high, wl, wh)
	}
	// The corner that the table names has that value.
	for _, end := range []string{"corner_low", "corner_high"} {
		one := c.study.Restrict([]Case{cornerAt(c.inputs, c.row[end+"_at"])})
		got := evaluate(t, c.row["rpn"], place(t, one, c.inputs)).Boards()[0].SI()
		if !c.close(got, c.number(t, end)) {
			t.Errorf("%s: %v at %s, want %v", end, got, c.row[end+"_at"], c.number(t, end))
		}
	}
	// Nothing lies outside the box, and what lies beyond the corners is found
	// or at least noticed.
	l, h, ok := c.y.Extremes()
	if !ok {
		t.Fatal("no extremes")
	}
	boxLow, boxHigh := c.number(t, "box_low"), c.number(t, "box_high")
	slack := 1e-6 * (boxHigh - boxLow) // of the minimisation, as README.md says
	if c.row["beyond_corners"] == "no" {
		slack = 1e-12 * c.size(math.Max(math.Abs(boxLow), math.Abs(boxHigh)))
	}
	if l.Value.SI() < boxLow-slack || h.Value.SI() > boxHigh+slack {
		t.Errorf("extremes %v … %v lie outside %v … %v", l.Value.SI(), h.Value.SI(), boxLow, boxHigh)
	}
	reached := l.Value.SI() <= boxLow+slack && h.Value.SI() >= boxHigh-slack
	if reached == between[c.row["case"]] {
		t.Errorf("extremes %v … %v of %v … %v: found is %v", l.Value.SI(), h.Value.SI(), boxLow, boxHigh, reached)
	}
	if c.row["beyond_corners"] != "no" && !c.y.Inside() {
		t.Error("an extreme beyond the corners is not noticed")
	}
}

// chance compares what was drawn: five standard errors of both draws together.
func (c *reference) chance(t *testing.T) {
	mean := 0.0
	for _, v := range boardsOf(c.y) {
		mean += (v - c.y.SI()) / referenceBoards
	}
	std, ok := c.y.Std()
	if !ok {
		t.Fatal("no standard deviation")
	}
	got := map[string]float64{"mc_mean": c.y.SI() + mean, "mc_std": std.SI()}
	for _, p := range []float64{0.135, 2.5, 50, 97.5, 99.865} {
		v, _ := c.y.Percentile(p)
		got["mc_p"+strconv.FormatFloat(p, 'g', -1, 64)] = v.SI()
	}
	if len(got) != 7 {
		t.Fatal("figures are missing")
	}
	for column, g := range got {
		se := c.number(t, column+"_se") * math.Sqrt(1+float64(tableBoards)/referenceBoards)
		if want := c.number(t, column); math.Abs(g-want) > 5*se {
			t.Errorf("%s %v, want %v give or take %v", column, g, want, 5*se)
		}
	}
}

// bent are the cases without a tangent at the nominal value, or without a
// slope there.
var bent = map[string]bool{"imbalance": true, "s1-9.4-0": true, "lc-impedance": true}

// firstOrder compares the slopes at the nominal value, from the sweeps.
func (c *reference) firstOrder(t *testing.T) {
	if bent[c.row["case"]] {
		return
	}
	shares := strings.Fields(c.row["variance_shares"])
	std := c.stdLinear(t)
	want := c.number(t, "std_linear")
	if math.Abs(std-want) > 1e-6*want {
		t.Errorf("first order %v, want %v", std, want)
	}
	i := 0
	for _, in := range c.inputs {
		if in["shape"] == "exact" && len(shares) < len(c.inputs) {
			continue
		}
		w := row{"case": c.row["case"], "share": shares[i]}.number(t, "share")
		i++
		d := c.slopes()[in["name"]] * in.number(t, "sigma")
		if math.Abs(d*d/std/std-w) > 1e-5 {
			t.Errorf("share of %s is %v, want %v", in["name"], d*d/std/std, w)
		}
	}
}

func (c *reference) slopes() map[string]float64 {
	out := map[string]float64{}
	for _, w := range c.y.Sweeps() {
		out[w.Source.Key] = slope(c.names[w.Source.Key].Sweeps()[0].Values, w.Values)
	}
	return out
}

func (c *reference) stdLinear(t testing.TB) float64 {
	sum := 0.0
	for _, in := range c.inputs {
		d := c.slopes()[in["name"]] * in.number(t, "sigma")
		sum += d * d
	}
	return math.Sqrt(sum)
}

// expected compares with what a publication prints, or with an exact value.
func (c *reference) expected(t *testing.T, e row) {
	quantity, want, tolerance := e["quantity"], e.number(t, "value"), e.number(t, "tolerance")
	low, high, _ := c.y.Extremes()
	var got float64
	switch quantity {
	case "nominal":
		got = c.y.SI()
	case "corner_low", "box_low":
		got = low.Value.SI()
	case "corner_high", "box_high":
		got = high.Value.SI()
	case "std_linear":
		got = c.stdLinear(t)
		tolerance += 1e-6 * want
	case "rss":
		got = math.Sqrt(3) * c.stdLinear(t)
		tolerance += 1e-6 * want
	case "mc_std":
		std, _ := c.y.Std()
		got = std.SI()
	case "mc_mean":
		for _, v := range boardsOf(c.y) {
			got += v / referenceBoards
		}
	case "wrong_half_width":
		for _, end := range []Extreme{low, high} {
			if got := math.Abs(end.Value.SI() - c.y.SI()); math.Abs(got-want) <= tolerance {
				t.Errorf("half width %v: %s", got, e["where"])
			}
		}
		return
	default:
		if !strings.HasPrefix(quantity, "mc_p") {
			t.Fatalf("the quantity %s is not known", quantity)
		}
		v, _ := c.y.Percentile(row{"p": strings.TrimPrefix(quantity, "mc_p")}.number(t, "p"))
		got = v.SI()
	}
	if strings.HasPrefix(quantity, "mc_") {
		tolerance += 5 * c.number(t, quantity+"_se") * math.Sqrt(float64(tableBoards)/referenceBoards)
	}
	if math.Abs(got-want) > tolerance {
		t.Errorf("%s %v, want %v ± %v (%s)", quantity, got, want, tolerance, e["where"])
	}
}
