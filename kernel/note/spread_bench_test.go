package note_test

import (
	"context"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"ohmwright/kernel/note"
)

// board is a note of 300 cells with 40 sources of spread: ten feedback dividers
// with a range, a band and two toleranced parts each, what follows from them,
// requirements, and two sums over all of them, which have too many corners to
// visit.
func board() []string {
	var codes []string
	add := func(format string, i int) { codes = append(codes, strings.ReplaceAll(format, "#", fmt.Sprint(i))) }
	for i := range 10 {
		add("Vin# := Range(9V, 12V, 15V) // supply [spec]", i)
		add("Vref# := Band(788mV, 800mV, 812mV) // reference [datasheet]", i)
		add("Rtop# := 10kΩ ± 1% // upper [assumed]", i)
		add("Rbot# := Nearest(E96, Rtop#*Vref#/(5V-Vref#)) ± 1% // lower", i)
		add("Vout# := Vref# * (1 + Rtop#/Rbot#) // output", i)
		add("Require(Vout# <= 5.3V, \"the output stays below the rating\")", i)
		add("Idiv# := Vout# / (Rtop# + Rbot#)", i)
		add("Pdiv# := Idiv# * Vout#", i)
		add("D# := Vout# / Vin#", i)
		add("Require(D# <= 0.7, \"the duty stays within reach\")", i)
		for k := range 18 {
			add(fmt.Sprintf("I#x%d := %dmA * D# + Idiv#\nP#x%d := I#x%d * (Vin# - Vout#)", k, 10*k+10, k, k), i)
		}
		add("Psum# := P#x0 + P#x1 + P#x2", i)
	}
	sum := func(name string) string {
		var parts []string
		for i := range 10 {
			parts = append(parts, fmt.Sprint(name, i))
		}
		return strings.Join(parts, " + ")
	}
	codes = append(codes, "Ptotal := "+sum("Psum"), "Require(Ptotal <= 100W, \"the board stays cool\")")
	for i := 0; len(codes) < 300; i++ {
		add("Tj# := 25°C + Ptotal*5°C/W + #*1K", i)
	}
	return codes
}

// withoutTolerances takes the spread out of a note and leaves all else.
func withoutTolerances(codes []string) []string {
	out := make([]string, len(codes))
	for i, c := range codes {
		c = regexp.MustCompile(`(Range|Band)\([^,()]*, ([^,()]*), [^,()]*\)`).ReplaceAllString(c, "$2")
		out[i] = strings.ReplaceAll(c, " ± 1%", "")
	}
	return out
}

// BenchmarkBoardOf300 computes a note of 300 cells from nothing, with 40 sources
// of spread and with none, side by side. Aim: below ten times.
func BenchmarkBoardOf300(b *testing.B) {
	codes := board()
	for _, c := range []struct {
		name  string
		codes []string
	}{{"exact", withoutTolerances(codes)}, {"spread", codes}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				n := note.New(note.Options{World: world})
				n.Set(sources(c.codes...))
				rs := n.Run(context.Background())
				if e := firstError(rs); e != nil {
					b.Fatal(e)
				}
			}
		})
	}
}

// BenchmarkBoardChanges computes the same notes again after an input changed
// that ten values depend on, as an edit does.
func BenchmarkBoardChanges(b *testing.B) {
	codes := board()
	for _, c := range []struct {
		name  string
		codes []string
	}{{"exact", withoutTolerances(codes)}, {"spread", codes}} {
		b.Run(c.name, func(b *testing.B) {
			n, rs := compute(b, c.codes...)
			if e := firstError(rs); e != nil {
				b.Fatal(e)
			}
			i := 0
			for b.Loop() {
				i++
				n.Put(note.Source{ID: "c3", Code: fmt.Sprintf("Rtop0 := 10.%dkΩ", i%2) + map[bool]string{true: " ± 1%"}[c.name == "spread"]})
				n.Run(context.Background())
			}
		})
	}
}
