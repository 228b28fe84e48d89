package note_test

import (
	"context"
	"fmt"
	"testing"

	"ohmwright/kernel/note"
)

// smallCell is a cell as notes have them: inputs, a formula, a choice, a requirement.
const smallCell = `Vin  := Range(18V, 24V, 32V)   // supply [system spec 4.2]
Iout := 15mA                    // load [power budget]
// The converter's input must not see more than its supply.
Rtop := 100kΩ ± 1%              // upper resistor [assumed]
Rbot := Nearest(E96, Rtop*3V/(32V-3V)) ± 1%
Vadc := Vin * Rbot / (Rtop + Rbot)
Require(Vadc <= 3.3V, "the input stays within its supply")`

// BenchmarkSmallCell is scan to result of a cell that was edited. Aim: 0.15 ms.
func BenchmarkSmallCell(b *testing.B) {
	n := note.New(note.Options{World: world})
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		i++
		n.Put(note.Source{ID: "a", Code: smallCell + fmt.Sprintf("\nPd := Vin*Iout*%d", i%9+2)})
		if rs := n.Run(context.Background()); rs[0].State != note.Done {
			b.Fatal(rs[0].Errors)
		}
	}
}

// BenchmarkOneLine is the same for the least that a cell can be.
func BenchmarkOneLine(b *testing.B) {
	n := note.New(note.Options{World: world})
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		i++
		n.Put(note.Source{ID: "a", Code: fmt.Sprintf("x := %dV", i%9)})
		if rs := n.Run(context.Background()); rs[0].State != note.Done {
			b.Fatal(rs[0].Errors)
		}
	}
}

// BenchmarkMillionFloatAdditions is a loop in a cell, with its compilation. Aim: 40 ms.
func BenchmarkMillionFloatAdditions(b *testing.B) {
	benchmarkAgain(b, "s := 0.0\nfor i := 0; i < 1_000_000; i++ {\n\ts += 0.5\n}")
}

// BenchmarkMillionFloatAdditionsInFunction is the same with local variables.
func BenchmarkMillionFloatAdditionsInFunction(b *testing.B) {
	benchmarkAgain(b, "func sum() float64 {\n\ts := 0.0\n\tfor i := 0; i < 1_000_000; i++ {\n\t\ts += 0.5\n\t}\n\treturn s\n}\ns := sum()")
}

// BenchmarkMillionQuantityAdditions is the same with a unit.
func BenchmarkMillionQuantityAdditions(b *testing.B) {
	benchmarkAgain(b, "func sum() Quantity {\n\ts := 0V\n\tfor i := 0; i < 1_000_000; i++ {\n\t\ts += 0.5V\n\t}\n\treturn s\n}\ns := sum()")
}

// benchmarkAgain runs a cell over and over.
func benchmarkAgain(b *testing.B, code string) {
	n := note.New(note.Options{World: world})
	n.Put(note.Source{ID: "a", Code: code})
	for b.Loop() {
		n.Again("a")
		rs := n.Run(context.Background())
		if rs[0].State != note.Done || !rs[0].Ran {
			b.Fatal(rs[0].Errors)
		}
	}
}

// chain is a note in which every cell uses the one before it.
func chain(cells int) []string {
	codes := []string{"x0 := 1V"}
	for i := 1; i < cells; i++ {
		codes = append(codes, fmt.Sprintf("x%d := x%d + 1mV // step %d", i, i-1, i))
	}
	return codes
}

// BenchmarkChainOf1000 computes a chain again after its first input changed. Aim: 15 ms.
func BenchmarkChainOf1000(b *testing.B) {
	n, rs := compute(b, chain(1000)...)
	if got, want := text(rs, "x999"), "1.999 V"; got != want {
		b.Fatalf("%s, want %s", got, want)
	}
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		i++
		n.Put(note.Source{ID: "c1", Code: fmt.Sprintf("x0 := %dV", 1+i%2)})
		rs = n.Run(context.Background())
		if !rs[999].Ran || rs[999].State != note.Done {
			b.Fatal(rs[999])
		}
	}
	if got, want := text(rs, "x999"), fmt.Sprintf("%d.999 V", 1+i%2); got != want {
		b.Fatalf("%s, want %s", got, want)
	}
}

// BenchmarkChainUntouched edits the last cell of a chain: the others only have to be found unchanged.
func BenchmarkChainUntouched(b *testing.B) {
	n, _ := compute(b, chain(1000)...)
	i := 0
	for b.Loop() {
		i++
		n.Put(note.Source{ID: "c1000", Code: fmt.Sprintf("x999 := x998 + %dV", i%2)})
		if rs := n.Run(context.Background()); rs[998].Ran || !rs[999].Ran {
			b.Fatal("ran the wrong cells")
		}
	}
}

// BenchmarkNoteOf300 computes a note of 300 cells from nothing.
func BenchmarkNoteOf300(b *testing.B) {
	var codes []string
	for i := range 75 {
		codes = append(codes,
			fmt.Sprintf("Vin%d := Range(18V, 24V, 32V) // supply [spec]", i),
			fmt.Sprintf("Rtop%d := %dkΩ ± 1%% // upper [assumed]\nRbot%d := Nearest(E96, Rtop%d*3V/(32V-3V)) ± 1%%", i, 10+i, i, i),
			fmt.Sprintf("func part%d(v Quantity) Quantity { return v * Rbot%d / (Rtop%d + Rbot%d) }", i, i, i, i),
			fmt.Sprintf("Vadc%d := part%d(Vin%d)\nRequire(Vadc%d <= 3.3V, \"the input stays within its supply\")", i, i, i, i))
	}
	b.ReportAllocs()
	for b.Loop() {
		_, rs := compute(b, codes...)
		if e := firstError(rs); e != nil {
			b.Fatal(e)
		}
	}
}
