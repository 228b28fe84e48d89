package units

import "testing"

// Sinks keep the compiler from removing what is measured.
var (
	sinkFloat    float64
	sinkQuantity Quantity
)

// The values change with each step, as in a loop of a note, and the
// functions are not inlined away: both sides pay for the same work.
//
//go:noinline
func mulFloat(a, b float64) float64 { return a * b }

//go:noinline
func addFloat(a, b float64) float64 { return a + b }

func BenchmarkMulFloat64(b *testing.B) {
	x := 1.0
	for b.Loop() {
		x = mulFloat(x, 1.0000001)
	}
	sinkFloat = x
}

func BenchmarkMulExact(b *testing.B) {
	x, f := MustParse("1 V"), Number(1.0000001)
	b.ReportAllocs()
	for b.Loop() {
		x = x.Mul(f)
	}
	sinkQuantity = x
}

func BenchmarkAddFloat64(b *testing.B) {
	x := 1.0
	for b.Loop() {
		x = addFloat(x, 1.5)
	}
	sinkFloat = x
}

func BenchmarkAddExact(b *testing.B) {
	x, y := MustParse("1 V"), MustParse("1.5 V")
	b.ReportAllocs()
	for b.Loop() {
		x = x.Add(y)
	}
	sinkQuantity = x
}

func BenchmarkSubExact(b *testing.B) {
	x, y := MustParse("1 V"), MustParse("1.5 V")
	b.ReportAllocs()
	for b.Loop() {
		x = x.Sub(y)
	}
	sinkQuantity = x
}

func BenchmarkDivExact(b *testing.B) {
	x, f := MustParse("1 V"), Number(1.0000001)
	b.ReportAllocs()
	for b.Loop() {
		x = x.Div(f)
	}
	sinkQuantity = x
}

// A value that remembers its unit takes the longer way.
func BenchmarkMulWithUnit(b *testing.B) {
	x, f := MustParse("1 mAh"), Number(1.0000001)
	b.ReportAllocs()
	for b.Loop() {
		x = x.Mul(f)
	}
	sinkQuantity = x
}

func BenchmarkScanLiteral(b *testing.B) {
	for _, s := range []string{"4.7kΩ", "62°C/W", "-40°C"} {
		b.Run(s, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				q, _, err := ScanLiteral(s)
				if err != nil {
					b.Fatal(err)
				}
				sinkQuantity = q
			}
		})
	}
}

func BenchmarkText(b *testing.B) {
	for _, s := range []string{"4.7 kΩ", "66.04 °C", "3 mil"} {
		q := MustParse(s)
		b.Run(s, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				sinkString = q.String()
			}
		})
	}
}

var sinkString string

func BenchmarkLoadTable(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := loadTable(tableText); err != nil {
			b.Fatal(err)
		}
	}
}
