package units

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// ofNotes are the rows of hand.csv that units does not compute, and why.
var ofNotes = map[string]string{
	"chosen/ideal":                  "preferred numbers are chosen in lib",
	"terms/rss percent":             "root-sum-square is worked out by the note",
	"terms/rss high":                "root-sum-square is worked out by the note",
	"two-drifts/rss":                "root-sum-square is worked out by the note",
	"range-and-part/rss half-width": "root-sum-square is worked out by the note",
	"bridge-equal/high":             "twelve sources: held in TestBridges against sampled corners",
	"bridge-equal/low":              "twelve sources: held in TestBridges against sampled corners",
	"bridge-equal-power/high":       "twelve sources: held in TestBridges against sampled corners",
	"bridge-mixed/high":             "twelve sources: held in TestBridges against sampled corners",
	"bridge-mixed/low":              "twelve sources: held in TestBridges against sampled corners",
	"bridge-mixed-power/high":       "twelve sources: held in TestBridges against sampled corners",
}

// handBoards are drawn in the cases worked by hand. The standard error of a
// deviation of n draws is at most 1/√(2n) of it (normal; less for uniform).
const handBoards = 20_000

// by is a study with short words for its parts.
type by struct{ s *Study }

func (b by) part(name string, value, percent float64) Quantity {
	return b.s.Place(name, name, Tolerance(Number(value), Quantity{v: percent / 100, d: computedMark, u: unitPercent}))
}

func (b by) band(name string, low, mid, high float64) Quantity {
	return b.s.Place(name, name, Band(Number(low), Number(mid), Number(high)))
}

func (b by) rng(name string, low, mid, high float64) Quantity {
	return b.s.Place(name, name, Range(Number(low), Number(mid), Number(high)))
}

// figuresOf are nominal, low, high and std of a value.
func figuresOf(y Quantity) map[string]float64 {
	out := map[string]float64{"nominal": y.SI(), "low": Low(y).SI(), "high": High(y).SI(), "std": 0}
	if std, ok := y.Std(); ok {
		out["std"] = std.SI()
	}
	return out
}

func lower(top, bottom Quantity) Quantity { return bottom.Div(top.Add(bottom)) }

// onBoards are drawn boards with some sources held.
func onBoards(s *Study, at map[string]float64) *Study {
	var cases []Case
	for i := range handBoards {
		cases = append(cases, Case{At: at, Board: i + 1})
	}
	return s.Restrict(cases)
}

// byHand computes the cases of hand.csv: case → quantity → figure.
func byHand() map[string]map[string]float64 {
	study := func() by { return by{NewStudy(StudyOptions{Boards: handBoards})} }
	out := map[string]map[string]float64{}
	one := Number(1)

	b := study()
	r, other := b.part("R", 10e3, 1), b.part("other", 10e3, 1)
	k, k2 := b.part("k", 1e3, 1), b.part("k2", 1e3, 1)
	out["divider-one-part"] = figuresOf(lower(r, r))
	out["divider-two-parts"] = figuresOf(lower(r, other))
	out["parallel-one-part"] = figuresOf(k.Mul(k).Div(k.Add(k)))
	out["parallel-two-parts"] = figuresOf(Parallel(k, k2))
	out["difference-one-part"] = figuresOf(r.Sub(r))
	out["difference-two-parts"] = figuresOf(r.Sub(other))

	b = study()
	v := b.part("V", 5, 5)
	block := func(n string) Quantity { return v.Mul(lower(b.part("a"+n, 10e3, 1), b.part("b"+n, 10e3, 1))) }
	first := block("1")
	out["block-twice"] = figuresOf(first.Sub(block("2")))
	out["block-twice"]["one less itself"] = High(first.Sub(first)).SI()
	out["block-twice"]["wrong high"] = out["block-twice"]["high"]

	current := func(vin Quantity) Quantity {
		d := Number(12).Div(vin)
		return Number(2).Mul(Sqrt(d.Mul(one.Sub(d))))
	}
	out["input-capacitor"] = figuresOf(current(study().rng("Vin", 18, 24, 32)))
	for _, c := range []struct {
		name string
		at   float64
	}{{"at 18 V", -1}, {"at 24 V", 0}, {"at 32 V", 1}, {"high at the ends", 1}, {"at 20 V", -2.0 / 3}} {
		s := NewStudy(StudyOptions{}).Restrict([]Case{{At: map[string]float64{"Vin": c.at}}})
		out["input-capacitor"][c.name] = current(by{s}.rng("Vin", 18, 24, 32)).Boards()[0].SI()
	}

	b = study()
	rest := b.rng("Vin", 4.5, 6, 7).Sub(b.band("Vdo", 0.3, 0.4, 0.5))
	out["dropout"] = figuresOf(Where(rest, Number(5), rest, Number(5)))

	out["chosen"] = figuresOf(study().band("Vref", 0.788, 0.8, 0.812).Mul(one.Add(Number(10e3).Div(Number(1910)))))
	out["chosen"]["wrong high"] = out["chosen"]["high"]

	shared := func(b by) Quantity {
		board := b.s.Place("T", "T", Range(q("-40 °C"), q("25 °C"), q("85 °C")))
		c := q("100 ppm/K")
		return lower(b.s.Place("R1", "R1", Tolerance(Number(10e3), Tempco(c, board))), b.s.Place("R2", "R2", Tolerance(Number(1e3), Tempco(c, board))))
	}
	b = study()
	y := shared(b)
	out["shared-temperature"] = figuresOf(y)
	std, _ := shared(by{onBoards(b.s, map[string]float64{"T": -1})}).Std()
	out["shared-temperature"]["std"] = std.SI()
	hot := func(r1, r2 float64) float64 {
		s := b.s.Restrict([]Case{{At: map[string]float64{"T": 1, "R1": r1, "R2": r2}}})
		return shared(by{s}).Boards()[0].SI()
	}
	out["shared-temperature"]["low at 85 C"], out["shared-temperature"]["high at 85 C"] = hot(1, -1), hot(-1, 1)

	b = study()
	rise := b.s.Place("T", "T", Range(q("-40 °C"), q("25 °C"), q("85 °C"))).Sub(q("25 °C"))
	at := func(r float64, c string) Quantity { return Number(r).Mul(one.Add(q(c).Mul(rise))) }
	out["tracking-temperature"] = figuresOf(lower(at(10e3, "100 ppm/K"), at(1e3, "100 ppm/K")))
	out["tracking-temperature"]["wrong high"] = out["tracking-temperature"]["high"]
	out["same-sign-temperature"] = figuresOf(lower(at(10e3, "100 ppm/K"), at(1e3, "50 ppm/K")))

	b = study()
	term := func(name string) Quantity {
		return b.s.Place(name, name, Tolerance(Number(10e3), q("1 %"), q("0.5 %"), Drift(q("0.2 %"))))
	}
	out["terms"] = figuresOf(term("a"))
	out["terms"]["worst percent"] = (out["terms"]["high"] - 10e3) / 100
	both := term("a").Add(term("b"))
	out["two-drifts"] = map[string]float64{"worst": High(both).SI() - both.SI()}

	b = study()
	ohm := func(b by) Quantity { return b.rng("V", 9, 12, 15).Div(b.part("R", 1e3, 1)) }
	out["range-and-part"] = figuresOf(ohm(b))
	std, _ = ohm(by{onBoards(b.s, map[string]float64{"V": 1})}).Std()
	out["range-and-part"]["std"] = std.SI()

	b = study()
	moments := func(kind string, x Quantity) {
		std, _ := x.Std()
		out["band"][kind+" std"] = std.SI()
		for _, v := range x.Boards() {
			out["band"][kind+" mean"] += v.SI() / handBoards
		}
	}
	out["band"] = map[string]float64{}
	moments("uniform", b.band("even", 4.9, 5, 5.3))
	moments("triangular", b.s.Place("triangle", "triangle", histogram(4.9, 5.3, func(u float64) float64 {
		if u < 0.25 { // the typical value stands a quarter up
			return u * u / 0.25
		}
		return 1 - (1-u)*(1-u)/0.75
	})))

	b = study()
	names := []string{"Vref", "Rtop", "Rbot"}
	parts := []Quantity{b.band("Vref", 0.788, 0.8, 0.812), b.part("Rtop", 10e3, 1), b.part("Rbot", 1910, 1)}
	y = parts[0].Mul(one.Add(parts[1].Div(parts[2])))
	f := figuresOf(y)
	sum := 0.0
	for _, w := range y.Sweeps() {
		p := parts[slices.Index(names, w.Source.Key)]
		f["relative sensitivity of "+w.Source.Name] = math.Abs(slope(p.Sweeps()[0].Values, w.Values) * p.SI() / y.SI())
		half := slope(p.Sweeps()[0].Values, w.Values) * (High(p).SI() - p.SI())
		sum += half * half
		if w.Source.Key == "Vref" {
			f["share of Vref in the variance"] = half * half
		}
	}
	f["share of Vref in the variance"] /= sum
	f["rss half-width"] = math.Sqrt(sum)
	f["rss percent"] = 100 * math.Sqrt(sum) / y.SI()
	out["feedback"] = f

	b = study()
	load := Parallel(b.part("Rb", 60, 5), Number(750))
	out["bias-network"] = figuresOf(b.part("V", 5, 5).Mul(lower(b.part("Ra", 1020, 5), load)))

	return out
}

func TestCasesWorkedByHand(t *testing.T) {
	t.Parallel()
	got := byHand()
	bridges := byCase(readTable(t, "bridges.csv"))
	inputs := byCase(readTable(t, "bridges_inputs.csv"))
	for name, r := range bridges {
		s := NewStudy(StudyOptions{Boards: handBoards})
		got[name] = figuresOf(evaluate(t, r[0]["rpn"], place(t, s, inputs[strings.TrimSuffix(name, "-power")])))
	}
	for _, r := range readTable(t, "hand.csv") {
		name, quantity, want := r["case"], r["quantity"], r.number(t, "value")
		g, ok := got[name][quantity]
		if _, elsewhere := ofNotes[name+"/"+quantity]; elsewhere {
			continue
		}
		if !ok {
			t.Errorf("%s: %s is not computed", name, quantity)
			continue
		}
		tolerance := 1e-12 * math.Max(math.Abs(want), math.Abs(got[name]["high"]-got[name]["low"]))
		switch {
		case strings.HasPrefix(quantity, "wrong"):
			if math.Abs(g-want) < 1e-3*math.Abs(want) {
				t.Errorf("%s: %s %v comes out: %s", name, quantity, g, r["how"])
			}
			continue
		case quantity == "std" || strings.HasSuffix(quantity, " std"):
			// Five standard errors, and what is of higher order than the
			// first: below a part in a thousand for parts of 1 %.
			tolerance = want * (5/math.Sqrt(2*handBoards) + 1e-3)
		case strings.HasSuffix(quantity, " mean"):
			tolerance = 5 * got[name][strings.Replace(quantity, "mean", "std", 1)] / math.Sqrt(handBoards)
		case name == "feedback" && quantity != "nominal" && quantity != "low" && quantity != "high":
			tolerance = 1e-6 * want // slopes from sweeps
		}
		if !(math.Abs(g-want) <= tolerance) {
			t.Errorf("%s: %s %v, want %v ± %v: %s", name, quantity, g, want, tolerance, r["how"])
		}
	}
}

// With more sources than MaxCorners the corners are a sample: it lies inside
// the extremes, says that it is one, and the extreme corner computed by itself
// is the extreme.
func TestBridges(t *testing.T) {
	t.Parallel()
	inputs := byCase(readTable(t, "bridges_inputs.csv"))
	rows := readTable(t, "bridges.csv")
	if len(rows) != 4 {
		t.Fatalf("%d bridges", len(rows))
	}
	for _, r := range rows {
		in := inputs[strings.TrimSuffix(r["case"], "-power")]
		s := NewStudy(StudyOptions{Boards: 10})
		y := evaluate(t, r["rpn"], place(t, s, in))
		low, high, _ := y.Extremes()
		wl, wh := r.number(t, "corner_low"), r.number(t, "corner_high")
		slack := 1e-12 * (wh - wl)
		if !y.Sampled() || low.Value.SI() < wl-slack || high.Value.SI() > wh+slack || high.Value.SI() < wh/2 {
			t.Errorf("%s: sampled %v, from %v to %v, all corners %v to %v", r["case"], y.Sampled(), low.Value.SI(), high.Value.SI(), wl, wh)
		}
		for _, end := range []string{"corner_low", "corner_high"} {
			one := s.Restrict([]Case{cornerAt(in, r[end+"_at"])})
			got := evaluate(t, r["rpn"], place(t, one, in)).Boards()[0].SI()
			if want := r.number(t, end); math.Abs(got-want) > slack {
				t.Errorf("%s: %s %v, want %v", r["case"], end, got, want)
			}
		}
	}
}
