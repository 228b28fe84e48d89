package note_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/note"
	"ohmwright/units"
)

// program is a random note of plain numbers: sources with limits, and lines
// that compute with them, decide on them, loop and call.
type program struct {
	sources [][3]float64
	cells   []string
}

// text is the note with its sources as given, or at one corner.
func (p program) text(corner int) []note.Source {
	var b strings.Builder
	for i, s := range p.sources {
		switch {
		case corner < 0 && i%2 == 0:
			fmt.Fprintf(&b, "s%d := Range(%g, %g, %g)\n", i, s[0], s[1], s[2])
		case corner < 0:
			fmt.Fprintf(&b, "s%d := Band(%g, %g, %g)\n", i, s[0], s[1], s[2])
		default:
			fmt.Fprintf(&b, "s%d := Quantity(%g)\n", i, s[2*(corner>>i&1)])
		}
	}
	out := []note.Source{{ID: "in", Code: b.String()}}
	for i, c := range p.cells {
		out = append(out, note.Source{ID: fmt.Sprint("c", i), Code: c})
	}
	return out
}

// drawProgram makes lines over the names so far; decisions compare values that
// are likely to cross.
func drawProgram(t *rapid.T) program {
	var p program
	names := []string{}
	for i := range rapid.IntRange(1, 4).Draw(t, "sources") {
		mid := rapid.Float64Range(1, 3).Draw(t, "mid")
		p.sources = append(p.sources, [3]float64{mid - rapid.Float64Range(0, 0.9).Draw(t, "below"), mid, mid + rapid.Float64Range(0, 0.9).Draw(t, "above")})
		names = append(names, fmt.Sprint("s", i))
	}
	one := func() string { return rapid.SampledFrom(names).Draw(t, "name") }
	for i := range rapid.IntRange(1, 4).Draw(t, "cells") {
		var lines []string
		for k := range rapid.IntRange(1, 3).Draw(t, "lines") {
			x := fmt.Sprintf("x%d_%d", i, k)
			a, b, c := one(), one(), one()
			form := rapid.SampledFrom([]string{
				"%[1]s := %[2]s*%[3]s - %[4]s",
				"%[1]s := %[2]s + %[3]s/(1 + %[4]s*%[4]s)",
				"%[1]s := Max(%[2]s, %[3]s) * %[4]s",
				"%[1]s := %[2]s\nif %[2]s < %[3]s { %[1]s = %[4]s*2 }",
				"%[1]s := %[2]s\nif %[3]s*%[3]s > 4 && %[4]s < 2.5 { %[1]s += %[3]s } else { %[1]s -= 1 }",
				"%[1]s := Quantity(0)\nfor i := 0; i < 3; i++ { if %[2]s > %[3]s { %[1]s += %[4]s } else { %[1]s += %[2]s*%[4]s } }",
				"f%[1]s := func(v Quantity) Quantity { if v > %[2]s { return v*%[3]s }; return %[4]s }\n%[1]s := f%[1]s(%[3]s)",
				"%[1]s := Quantity(math.Floor(float64(%[2]s*%[3]s))) + %[4]s",
				"l%[1]s := []Quantity{%[2]s, %[3]s, %[4]s}\nsort.Slice(l%[1]s, func(i, j int) bool { return l%[1]s[i] < l%[1]s[j] })\n%[1]s := l%[1]s[1]",
			}).Draw(t, "form")
			lines = append(lines, fmt.Sprintf(form, x, a, b, c))
			names = append(names, x)
		}
		p.cells = append(p.cells, strings.Join(lines, "\n"))
	}
	p.cells = append(p.cells, fmt.Sprintf("if %s > 1.5 { Require(%s > 1, \"first\") }\nRequire(%s*%s <= 2, \"second\")\nSpread(%s)", one(), one(), one(), one(), one()))
	return p
}

func run(t *rapid.T, w *host.World, cells []note.Source) (map[string]units.Quantity, map[string]*note.Requirement) {
	n := note.New(note.Options{World: w})
	n.Set(cells)
	out := map[string]units.Quantity{}
	needs := map[string]*note.Requirement{}
	for _, r := range n.Run(context.Background()) {
		for _, e := range r.Errors {
			t.Fatalf("%s: %v", r.Label, e)
		}
		for _, i := range r.Items {
			switch x := i.(type) {
			case *note.Entry:
				if q, ok := x.Value.Quantity.(units.Quantity); ok {
					out[x.Name] = q
				}
			case *note.Requirement:
				if x.Trouble != "" {
					t.Fatalf("%s: %s", x.Text, x.Trouble)
				}
				needs[x.Text] = x
			case *note.Spreading:
				if x.Trouble != "" {
					t.Fatalf("Spread: %s", x.Trouble)
				}
			}
		}
	}
	return out, needs
}

// Whatever a note decides, its corners are those of notes with exact inputs.
func TestCornersAreExactNotes(t *testing.T) {
	t.Parallel()
	w, err := host.Load()
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		p := drawProgram(t)
		spread, needs := run(t, w, p.text(-1))
		low, high := map[string]float64{}, map[string]float64{}
		for c := range 1 << len(p.sources) {
			values, exact := run(t, w, p.text(c))
			for text, e := range exact {
				r := needs[text]
				switch {
				case r == nil:
					t.Fatalf("requirement %q is judged in exact notes only\n%v", text, p.text(-1))
				case r.Holds && !e.Holds:
					t.Fatalf("requirement %q holds, but not in the corner %b\n%v", text, c, p.text(-1))
				case r.Worst != nil && r.Worst.SI() > e.Margin.SI()+1e-12*max(1, math.Abs(e.Margin.SI())):
					t.Fatalf("requirement %q: worst margin %v, in the corner %b it is %v\n%v", text, r.Worst.SI(), c, e.Margin.SI(), p.text(-1))
				case r.Worst == nil && r.Margin != nil && r.Margin.SI() != e.Margin.SI():
					t.Fatalf("requirement %q has no worst case, and margins %v and %v\n%v", text, r.Margin.SI(), e.Margin.SI(), p.text(-1))
				}
			}
			for name, q := range values {
				if _, ok := low[name]; !ok {
					low[name], high[name] = math.Inf(1), math.Inf(-1)
				}
				low[name], high[name] = min(low[name], q.SI()), max(high[name], q.SI())
			}
		}
		for name, q := range spread {
			lo, hi, ok := q.Limits()
			if !ok {
				if low[name] != high[name] {
					t.Fatalf("%s is exact, but goes from %v to %v\n%v", name, low[name], high[name], p)
				}
				continue
			}
			slack := 1e-12 * max(math.Abs(low[name]), math.Abs(high[name]), 1)
			// Extremes inside may go further than the corners, never less far.
			if lo.SI() > low[name]+slack || hi.SI() < high[name]-slack {
				t.Fatalf("%s goes from %v to %v, exact notes from %v to %v\n%v", name, lo.SI(), hi.SI(), low[name], high[name], p.text(-1))
			}
		}
	})
}
