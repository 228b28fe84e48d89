package jupyter

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ohmwright/kernel/cell/host"
)

// What cells of the model hold. A name stands in one place only, so that an
// edit without cell ids keeps the names of its cell.
var modelCells = [][]string{
	{"a := 1V", "a := 2V // supply", "a := 3A", "a := 1V + 1A", "a := b"},
	{"b := 2*a", "b := a + 1V", "b := 4V;", "b := )"},
	{"c := a + b\nRequire(c <= 5V, \"cool\")", "c := b/1kΩ", "c := 2*b;", "c := missing"},
	{"fmt.Println(a)", "2+2", "a + b", "Require(b <= 3V, \"cool\")", "if a > 1V {\n\tfmt.Println(\"more\")\n}"},
	{"d := c\ne := Vx", "d := a\nfmt.Println(\"d\", d)", "d := c*2", "Vx := 2V"},
}

// Whatever a person does, and in whatever front end: when the kernel is idle,
// every cell shows what a fresh run of the present texts gives, but for
// outputs that the page cannot have replaced, which are named in a notice.
func TestPageShowsWhatAFreshRunGives(t *testing.T) {
	t.Parallel()
	w, err := host.Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, front := range []struct {
		name    string
		ids     bool
		reloads bool
	}{{"JupyterLab", true, true}, {"classic", false, true}, {"nbclient", false, false}} {
		t.Run(front.name, func(t *testing.T) {
			t.Parallel()
			rapid.Check(t, func(t *rapid.T) {
				p, err := newPage(front.ids)
				if err != nil {
					t.Fatal(err)
				}
				for i := range modelCells {
					p.cells = append(p.cells, &pageCell{id: string(rune('A' + i))})
				}
				all := slices.Clone(p.cells)
				var order []*pageCell // as executed first
				for range rapid.IntRange(1, 12).Draw(t, "steps") {
					i := rapid.IntRange(0, len(all)-1).Draw(t, "cell")
					c := all[i]
					if !slices.Contains(p.cells, c) {
						p.cells = append(p.cells, c) // written anew, with another id
						c.id += "'"
						c.source, c.ran, c.outputs = "", "", nil
					}
					switch do := rapid.IntRange(0, 9).Draw(t, "do"); {
					case do == 0 && front.reloads:
						p.reload()
					case do == 1 && front.ids:
						p.remove(c)
						order = slices.DeleteFunc(order, func(x *pageCell) bool { return x == c })
						continue // the kernel hears of it with the next execution
					case do == 2 && front.ids && c.ran != "":
						// A program does not show what it runs; the next execution catches up.
						c.ran, c.label = rapid.SampledFrom(modelCells[i]).Draw(t, "silent"), fmt.Sprintf("In [%d]", p.count)
						p.silently(c.id, c.ran)
						continue
					case do < 8 || c.source == "":
						next := rapid.SampledFrom(modelCells[i]).Draw(t, "source")
						if !front.ids && !keeps(p.engine, c.ran, next) {
							continue // a name that goes leaves its value behind
						}
						c.source = next
					}
					if c.source == "" {
						continue
					}
					p.run(c)
					if !slices.Contains(order, c) {
						order = append(order, c)
					}
					p.check(t, w, order)
				}
			})
		})
	}
}

// keeps reports whether a kernel without cell ids can tell that one text takes
// the place of the other.
func keeps(e *Engine, old, next string) bool {
	return old == "" || old == next || slices.Equal(e.note.Names(old), e.note.Names(next)) && len(e.note.Names(old)) > 0
}

func (p *page) check(t *rapid.T, w *host.World, order []*pageCell) {
	for _, fault := range p.faults {
		t.Fatal(fault)
	}
	standing := "" // what notices that stand say
	for _, c := range p.cells {
		for _, o := range c.outputs {
			if p.known[o.id] {
				standing += o.text
			}
		}
	}
	standing = strings.Join(strings.Fields(standing), " ")
	for c, r := range p.fresh(w, order) {
		wrong := c.wrong(r)
		if wrong == "" {
			continue
		}
		if strings.Contains(standing, c.label) && p.told[c.label] {
			continue
		}
		if !p.ids && len(r.Defines) == 0 && p.told[c.label] {
			continue // told once
		}
		t.Fatal(wrong)
	}
}
