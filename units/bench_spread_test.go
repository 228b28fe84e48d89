package units

import (
	"math"
	"runtime"
	"slices"
	"strconv"
	"testing"
	"time"
)

// BenchmarkDividerMillion is what testdata/spread/numpy_bench.py does: a
// divider with three uniform sources at 1,000,000 boards, then its least and
// greatest board and its standard deviation. testdata/spread/sidebyside.sh
// runs both. Medians are told in ms, since the machine is shared.
func BenchmarkDividerMillion(b *testing.B) {
	var drawn, computed, total []float64
	var v, r1, r2 Quantity // as there, those of one run live until the next has its own
	for b.Loop() {
		start := time.Now()
		s := NewStudy(StudyOptions{Boards: 1_000_000})
		v = s.Place("V", "V", Tolerance(q("5 V"), q("5 %")))
		r1 = s.Place("R1", "R1", Tolerance(q("10 kΩ"), q("1 %")))
		r2 = s.Place("R2", "R2", Tolerance(q("4.7 kΩ"), q("1 %")))
		middle := time.Now()
		y := v.Mul(r2).Div(r1.Add(r2))
		low, high := math.Inf(1), math.Inf(-1)
		for _, x := range boardsOf(y) {
			if x < low {
				low = x
			}
			if x > high {
				high = x
			}
		}
		std, _ := y.Std()
		end := time.Now()
		if !near(low, 1.4988, 1e-3) || !near(high, 1.7013, 1e-3) || !near(std.SI(), 0.04703, 1e-2) {
			b.Fatal(low, high, std)
		}
		drawn = append(drawn, middle.Sub(start).Seconds())
		computed = append(computed, end.Sub(middle).Seconds())
		total = append(total, end.Sub(start).Seconds())
	}
	for unit, x := range map[string][]float64{"draw_ms": drawn, "compute_ms": computed, "total_ms": total} {
		slices.Sort(x)
		b.ReportMetric(1e3*x[len(x)/2], unit)
	}
}

// spreadPair are two values of n sources each at default boards: of the same
// ones, or of one in common.
func spreadPair(n int, same bool) (x, y Quantity) {
	s := NewStudy(StudyOptions{})
	sum := func(from int) Quantity {
		q := Number(1)
		for i := range n {
			key := strconv.Itoa(from + i)
			q = q.Add(s.Place(key, key, Tolerance(Number(1), Number(0.01))))
		}
		return q
	}
	if same {
		return sum(0), sum(0)
	}
	return sum(0), sum((n + 1) / 2)
}

func BenchmarkSpread(b *testing.B) {
	for name, f := range map[string]func(a, b Quantity) Quantity{"Add": Quantity.Add, "Mul": Quantity.Mul, "Div": Quantity.Div} {
		for _, n := range []int{3, 6, 10} {
			for _, same := range []bool{true, false} {
				kind := map[bool]string{true: "same", false: "other"}[same]
				b.Run(name+"/"+strconv.Itoa(n)+kind, func(b *testing.B) {
					x, y := spreadPair(n, same)
					b.ReportAllocs()
					for b.Loop() {
						sinkQuantity = f(x, y)
					}
				})
			}
		}
	}
}

func BenchmarkPlace(b *testing.B) {
	x := Tolerance(q("10 kΩ"), q("1 %"))
	normal := Tolerance(q("10 kΩ"), Normal(q("1 %"), 3))
	for name, x := range map[string]Quantity{"uniform": x, "normal": normal} {
		b.Run(name, func(b *testing.B) {
			s := NewStudy(StudyOptions{})
			b.ReportAllocs()
			for b.Loop() {
				sinkQuantity = s.Place("R", "R", x)
			}
		})
	}
}

// A note that is computed again and again in one study keeps nothing of the
// times before.
func TestRepeatedEvaluationKeepsNothing(t *testing.T) {
	s := NewStudy(StudyOptions{})
	evaluate := func() {
		v := s.Place("V", "V", Range(q("4.5 V"), q("5 V"), q("5.5 V")))
		r1 := s.Place("R1", "R1", Tolerance(q("10 kΩ"), q("1 %"), Drift(q("0.1 %"))))
		r2 := s.Place("R2", "R2", Another(r1))
		y := v.Mul(r2).Div(r1.Add(r2))
		Max(y, Abs(y.Sub(v))).Less(q("2.5 V"))
		s.CasesOf([]Quantity{y, v}).Pick(y, 3)
		y.Std()
		s.TakeSplits()
	}
	heap := func() uint64 {
		runtime.GC()
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	for range 10 {
		evaluate()
	}
	before := heap()
	for range 1000 {
		evaluate()
	}
	// One evaluation takes about 200 kB: 1,000 of them, or one in ten, would
	// stand out.
	if after := heap(); after > before+1<<20 {
		t.Errorf("the heap went from %d to %d bytes in 1,000 evaluations", before, after)
	}
}
