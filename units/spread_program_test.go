package units

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// A program is a small calculation over placed sources, read from bytes: three
// for each step, an operation and which two of the values so far it takes.
// Values that mean the same to every study.
type program []byte

const programSteps = 24

// sources are of every kind: parts, uneven bands, several terms, drifts,
// ranges, a shared temperature, normal and tabled shapes. All are numbers.
func programSources(s *Study, order []int) []Quantity {
	temperature := func() Quantity {
		return s.Place("T", "T", Range(q("-40 °C"), q("25 °C"), q("85 °C")))
	}
	make1 := []func() Quantity{
		func() Quantity { return Tolerance(Number(2), q("5 %")) },
		func() Quantity { return Band(Number(0.5), Number(1), Number(3)) },
		func() Quantity { return Tolerance(Number(1.5), q("1 %"), Number(0.1), Drift(q("0.5 %"))) },
		func() Quantity { return Range(Number(-1), Number(0.5), Number(1)) },
		func() Quantity { return Tolerance(Number(3), Tempco(q("1000 ppm/K"), temperature())) },
		func() Quantity {
			return Tolerance(Number(1), Normal(q("10 %"), 3), Tempco(q("500 ppm/K"), temperature()))
		},
		func() Quantity { return Histogram([]Quantity{Number(1), Number(2), Number(4)}, []float64{3, 1}) },
		func() Quantity { return Tolerance(Number(4), q("2 %"), Drift(q("1 %"))) },
		func() Quantity { return Tolerance(Number(0.3), q("2 %"), Drift(q("1 %"))) },
	}
	out := make([]Quantity, len(order))
	for _, i := range order {
		key := string(rune('a' + i))
		out[i] = s.Place(key, key, make1[i]())
	}
	return out
}

var inOrder = []int{0, 1, 2, 3, 4, 5, 6, 7, 8}

// drawOrder are some of them: 9 make 13 sources with their drifts and the
// temperature, of which corners are sampled.
func drawOrder(t *rapid.T) []int {
	return inOrder[:rapid.SampledFrom([]int{3, 7, 9}).Draw(t, "sources")]
}

// run computes the program; its result is its last value.
func (p program) run(parts []Quantity) Quantity {
	x := append([]Quantity(nil), parts...)
	for len(p) >= 3 {
		op, a, b := p[0], x[int(p[1])%len(x)], x[int(p[2])%len(x)]
		p = p[3:]
		var y Quantity
		switch op % 20 {
		case 0:
			y = a.Add(b)
		case 1:
			y = a.Sub(b)
		case 2:
			y = a.Mul(b)
		case 3:
			y = a.Div(b)
		case 4:
			y = a.Neg()
		case 5:
			y = Abs(a)
		case 6:
			y = Sqrt(a)
		case 7:
			y = Exp(a)
		case 8:
			y = Ln(a)
		case 9:
			y = Log10(a)
		case 10:
			y = Pow(a, float64(int(op/20))-4)
		case 11:
			y = Pow(a, float64(op)/64)
		case 12:
			y = Min(a, b)
		case 13:
			y = Max(a, b, Number(1))
		case 14:
			y = Where(a, b, a.Mul(b), b)
		case 15:
			y = Parallel(a, b)
		case 16:
			y = Tan(a)
		case 17:
			y = Atan(a).Mul(Cos(b))
		case 18:
			y = Number(float64(op)).Sub(a)
		case 19:
			y = PowerRatio(a.Mul(q("1 dB"))).Add(Power(q("1 dBW").Add(b.Mul(q("1 dB")))).Div(q("1 W")))
		}
		x = append(x, y)
	}
	return x[len(x)-1]
}

func drawProgram(t *rapid.T) program {
	return rapid.SliceOfN(rapid.Byte(), 3, 3*programSteps).Draw(t, "program")
}

// compute runs the program; ok is false where it is refused.
func (p program) compute(parts []Quantity) (y Quantity, refused *Error) {
	refused = refusal(func() { y = p.run(parts) })
	return y, refused
}

// FuzzSpreadPrograms: a program gives finite numbers in all cases or *Error.
func FuzzSpreadPrograms(f *testing.F) {
	f.Add([]byte{2, 0, 1, 0, 7, 2, 3, 8, 7})                                // a·b, + c, / a·b
	f.Add([]byte{7, 0, 0, 7, 7, 0, 7, 8, 0, 7, 9, 0})                       // e^e^e^e^a
	f.Add([]byte{2, 6, 6, 2, 7, 7, 2, 8, 8, 2, 9, 9, 2, 10, 10, 2, 11, 11}) // g to the 64th
	f.Add([]byte{1, 0, 0, 3, 1, 7})                                         // b/(a − a)
	f.Add([]byte{15, 3, 3, 16, 7, 0, 6, 3, 0})                              // the root of what may be negative
	f.Add([]byte{1, 3, 3, 15, 7, 0, 10, 7, 0, 11 + 20*10, 3, 0})            // powers of 0
	f.Fuzz(func(t *testing.T, text []byte) {
		p := program(text[:min(len(text), 3*programSteps)])
		s := NewStudy(StudyOptions{Boards: 50})
		y, refused := p.compute(programSources(s, inOrder[:7+2*(len(p)%2)]))
		if refused != nil {
			if refused.Error() == "" {
				t.Error("refused without a word")
			}
			return
		}
		if y.v-y.v != 0 {
			// Exact values may overflow; a value with spread is refused by its
			// lanes.
			if y.HasSpread() {
				t.Errorf("nominal %v", y.v)
			}
			return
		}
		if y.e == nil {
			return
		}
		for i, v := range y.e.lanes {
			if v-v != 0 {
				t.Fatalf("%v where %s", v, y.e.where(i))
			}
		}
	})
}

// The same program gives the same digits on every run, and whatever the order
// in which its sources become known.
func TestSameDigitsOnEveryRun(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := drawProgram(t)
		order := drawOrder(t)
		mixed := rapid.Permutation(order).Draw(t, "order")
		s, other := NewStudy(StudyOptions{Boards: 20}), NewStudy(StudyOptions{Boards: 20})
		x, again, moved := programSources(s, order), programSources(NewStudy(StudyOptions{Boards: 20}), order), programSources(other, mixed)
		y, refused := p.compute(x)
		z, refusedToo := p.compute(moved)
		if (refused == nil) != (refusedToo == nil) {
			t.Fatalf("refused %v, in another order of sources %v", refused, refusedToo)
		}
		if refused != nil {
			return
		}
		w, _ := p.compute(again)
		if !y.Same(w) || y.HasSpread() != w.HasSpread() || !y.Same(z) || y.HasSpread() != z.HasSpread() {
			t.Fatalf("%v, again %v, in another order %v", y, w, z)
		}
		if y.e == nil {
			return
		}
		for i, v := range y.e.lanes {
			if v != w.e.lanes[i] {
				t.Fatalf("%v and again %v where %s", v, w.e.lanes[i], y.e.where(i))
			}
		}
		// Corners of the other stand elsewhere, so each is looked up by its case.
		if len(y.e.lanes) != len(z.e.lanes) {
			t.Fatalf("%d and %d lanes", len(y.e.lanes), len(z.e.lanes))
		}
		lane := map[string]float64{}
		for i, v := range z.e.lanes {
			lane[fmt.Sprint(z.e.caseAt(i))] = v
		}
		for i, v := range y.e.lanes {
			if got, ok := lane[fmt.Sprint(y.e.caseAt(i))]; !ok || got != v {
				t.Fatalf("%v and in another order %v where %s", v, got, y.e.where(i))
			}
		}
	})
}

// A study of one case gives the number that the full study has in that case:
// in corners, in sweeps and on boards, to the bit.
func TestStatedCasesEqualTheFullStudy(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p, order := drawProgram(t), drawOrder(t)
		s := NewStudy(StudyOptions{Boards: 20, Seed: 7})
		y, refused := p.compute(programSources(s, order))
		if refused != nil || y.e == nil {
			return
		}
		var cases []Case
		var want []float64
		for range 12 {
			i := rapid.IntRange(0, len(y.e.lanes)-1).Draw(t, "lane")
			cases, want = append(cases, y.e.caseAt(i)), append(want, y.e.lanes[i])
		}
		got, refused := p.compute(programSources(s.Restrict(cases), order))
		if refused != nil {
			t.Fatal(refused)
		}
		for i, v := range got.e.lanes {
			if v != want[i] {
				t.Fatalf("%v by itself and %v among all where %s", v, want[i], s.Describe(cases[i]))
			}
		}
	})
}

// Every case computed by itself with exact values, and joined, is the value
// computed at once.
func TestPickAndJoin(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := drawProgram(t)
		s := NewStudy(StudyOptions{Boards: 5})
		parts := programSources(s, drawOrder(t))
		y, refused := p.compute(parts)
		if refused != nil || math.Abs(y.v) > 1e100 {
			return
		}
		c := s.CasesOf(append([]Quantity{y}, parts...))
		values := make([]Quantity, c.Len())
		for i := range values {
			exact := make([]Quantity, len(parts))
			for k, x := range parts {
				exact[k] = c.Pick(x, i)
				if exact[k].HasSpread() {
					t.Fatal("what was picked has spread")
				}
			}
			v, refused := p.compute(exact)
			if refused != nil {
				t.Fatalf("%v where %s", refused, c.Where(i))
			}
			if v.v != c.Pick(y, i).v {
				t.Fatalf("%v by itself, %v at once where %s", v.v, c.Pick(y, i).v, c.Where(i))
			}
			values[i] = v
		}
		if joined := c.Join(y, values); !joined.Identical(y) {
			t.Fatal("joined it is another value")
		}
		joined := c.Join(Nominal(y), values) // as after a decision that lost the spread
		for i, v := range values {
			if got := c.Pick(joined, i).v; got != v.v {
				t.Fatalf("%v joined, %v before where %s", got, v.v, c.Where(i))
			}
		}
		if again := c.Join(joined, values); joined.HasSpread() && !again.Identical(joined) {
			t.Fatal("joined again it is another value")
		}
	})
}
