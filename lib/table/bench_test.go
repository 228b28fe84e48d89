package table

import (
	"fmt"
	"strings"
	"testing"

	"ohmwright/units"
)

// long is a curve of so many rows over 0 … 1 V.
func long(b *testing.B, rows int) Table {
	var text strings.Builder
	text.WriteString("x [V], y [A]\n")
	for i := range rows {
		fmt.Fprintf(&text, "%v, %v\n", float64(i)/float64(rows-1), i*i%97)
	}
	return must(b, text.String())
}

// Reading a curve at a value with spread, 2000 boards: by a search in each
// case, as At does, and by choosing between all pieces with units.Where.
func BenchmarkAt(b *testing.B) {
	for _, rows := range []int{5, 30, 1000} {
		c := long(b, rows)
		study := units.NewStudy(units.StudyOptions{})
		x := study.Place("x", "x", units.Tolerance(q("0.5 V"), q("90 %")))
		b.Run(fmt.Sprintf("rows=%d/spread", rows), func(b *testing.B) {
			for b.Loop() {
				if _, err := c.At(x); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(fmt.Sprintf("rows=%d/exact", rows), func(b *testing.B) {
			v := q("0.3 V")
			for b.Loop() {
				if _, err := c.At(v); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(fmt.Sprintf("rows=%d/spread, pieces by Where", rows), func(b *testing.B) {
			xs, ys := c.columns[0].values, c.columns[1].values
			for b.Loop() {
				value := ys[0]
				for i := range len(xs) - 1 {
					along := x.Sub(xs[i]).Div(xs[i+1].Sub(xs[i]))
					value = units.Where(x, xs[i], value, ys[i].Add(ys[i+1].Sub(ys[i]).Mul(along)))
				}
			}
		})
	}
}

func BenchmarkRead(b *testing.B) {
	for _, rows := range []int{10, 1000, 100_000} {
		var text strings.Builder
		text.WriteString("x [V], y [A], z [Ω]\n")
		for i := range rows {
			fmt.Fprintf(&text, "%d, %d.5, 4k7\n", i, i%97)
		}
		b.Run(fmt.Sprintf("rows=%d", rows), func(b *testing.B) {
			for b.Loop() {
				if _, err := Text(text.String()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
