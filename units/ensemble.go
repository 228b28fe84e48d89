package units

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"
)

// Ensemble is how a value spreads: its number in every case that its study
// computes. An exact value has none.
type Ensemble struct {
	kind  spreadKind
	study *Study
	set   *sourceSet
	lanes []float64 // corners, sweeps, boards; in the number of the quantity
	given *given    // of a value that is a source itself: as it was given
}

type spreadKind uint8

const (
	spreadLive     spreadKind = iota // placed in a study
	spreadDeclared                   // limits are stated, but no study knows it yet
	spreadTypical                    // no limits published
	spreadTerm                       // a tolerance that says how it counts, for ±
)

func (e *Ensemble) spreads() bool {
	return e != nil && (e.kind == spreadLive || e.kind == spreadDeclared)
}

// live returns the lanes that take part in arithmetic; nil for an exact value.
func (a Quantity) live() *Ensemble {
	if a.e == nil {
		return nil
	}
	switch a.e.kind {
	case spreadLive:
		return a.e
	case spreadTypical:
		return nil
	case spreadTerm:
		refuse("cannot compute with the tolerance "+a.String(), "it says how a tolerance counts, and stands behind ±")
	}
	refuse("cannot compute with "+a.described()+", whose limits no study knows", "give it a place first: study.Place(key, name, x); Nominal(x) is the value without its limits")
	return nil
}

// common returns the study and the sources of all values together; nil if
// they are exact.
func common(qs ...Quantity) (s *Study, set *sourceSet) {
	for _, q := range qs {
		e := q.live()
		switch {
		case e == nil:
		case s == nil:
			s, set = e.study, e.set
		case s != e.study:
			refuse("cannot combine values of two studies", "place both in one study")
		default:
			set = s.union(set, e.set)
		}
	}
	return s, set
}

// buffers hold lanes that are needed for one operation only.
var buffers = sync.Pool{New: func() any { return new([]float64) }}

// head returns the corners and sweeps of e in the larger set; nominal stands
// where a sweep of another source leaves e alone. into is used where it has
// room.
func (e *Ensemble) head(to *sourceSet, nominal float64, into []float64) []float64 {
	s := e.study
	if e.set == to {
		return e.lanes[:to.flatAt(s)]
	}
	into = slices.Grow(into[:0], to.flatAt(s))[:to.flatAt(s)]
	if len(into) == 0 {
		return into
	}
	j := s.gather(e.set, to)
	for i, k := range j.corner {
		into[i] = e.lanes[k]
	}
	for i, r := range j.row {
		row := into[to.sweepAt(i):][:sweepPoints]
		if r >= 0 {
			copy(row, e.lanes[e.set.sweepAt(r):])
			continue
		}
		for p := range row {
			row[p] = nominal
		}
	}
	return into
}

// flat returns the boards, or the stated cases: they are the same in every
// set.
func (e *Ensemble) flat() []float64 { return e.lanes[e.set.flatAt(e.study):] }

// combine returns the lanes of a op b; nil for exact values. Where the result
// is no finite number in some case, it calls no with that case in words.
func combine(op byte, a, b Quantity, no func(where string)) *Ensemble {
	if a.e == nil && b.e == nil {
		return nil
	}
	x, y := a.live(), b.live()
	var out *Ensemble
	var ok bool
	switch {
	case x == nil && y == nil:
		return nil
	case y == nil:
		out = x.like()
		ok = inBlocks(len(out.lanes), func(from, to int) bool {
			kernelScalar(op, out.lanes[from:to], x.lanes[from:to], b.v)
			return finite(out.lanes[from:to])
		})
	case x == nil:
		out = y.like()
		ok = inBlocks(len(out.lanes), func(from, to int) bool {
			scalarKernel(op, out.lanes[from:to], a.v, y.lanes[from:to])
			return finite(out.lanes[from:to])
		})
	default:
		s, set := common(a, b)
		out = &Ensemble{study: s, set: set, lanes: make([]float64, set.width)}
		bx, by := buffers.Get().(*[]float64), buffers.Get().(*[]float64)
		xs, ys := x.head(set, a.v, *bx), y.head(set, b.v, *by)
		kernel(op, out.lanes[:len(xs)], xs, ys)
		headOK := finite(out.lanes[:len(xs)])
		keepBuffer(bx, xs, x)
		keepBuffer(by, ys, y)
		dst, xf, yf := out.flat(), x.flat(), y.flat()
		ok = inBlocks(len(dst), func(from, to int) bool {
			kernel(op, dst[from:to], xf[from:to], yf[from:to])
			return finite(dst[from:to])
		}) && headOK
	}
	if !ok {
		out.refuseInfinite(no)
	}
	return out
}

// refuseInfinite calls no with the first case, in words, in which e is no
// finite number, if there is one.
func (e *Ensemble) refuseInfinite(no func(where string)) {
	if i := slices.IndexFunc(e.lanes, func(v float64) bool { return v-v != 0 }); i >= 0 {
		no(" where " + e.where(i))
	}
}

// keepBuffer gives a buffer back, larger if it grew; used may be e's own.
func keepBuffer(b *[]float64, used []float64, e *Ensemble) {
	if len(used) > 0 && &used[0] != &e.lanes[0] {
		*b = used
	}
	buffers.Put(b)
}

// like returns an ensemble of the same sources with lanes to fill.
func (e *Ensemble) like() *Ensemble {
	return &Ensemble{study: e.study, set: e.set, lanes: make([]float64, len(e.lanes))}
}

// each returns the lanes of f of one value.
func each(a Quantity, f func(float64) float64) *Ensemble {
	e := a.live()
	if e == nil {
		return nil
	}
	out := e.like()
	for i, v := range e.lanes {
		out.lanes[i] = f(v)
	}
	return out
}

// every returns the lanes of f of several values; it gets their numbers in
// one lane, in a slice that is used again.
func every(f func(x []float64) float64, qs ...Quantity) *Ensemble {
	s, set := common(qs...)
	if s == nil {
		return nil
	}
	out := &Ensemble{study: s, set: set, lanes: make([]float64, set.width)}
	heads, flats := make([][]float64, len(qs)), make([][]float64, len(qs))
	x := make([]float64, len(qs))
	for i, q := range qs {
		x[i] = q.v
		if e := q.live(); e != nil {
			heads[i], flats[i] = e.head(set, q.v, nil), e.flat()
		}
	}
	fill := func(dst []float64, args [][]float64) {
		for i := range dst {
			for k, l := range args {
				if l != nil {
					x[k] = l[i]
				}
			}
			dst[i] = f(x)
		}
	}
	at := set.flatAt(s)
	fill(out.lanes[:at], heads)
	fill(out.lanes[at:], flats)
	return out
}

// same reports whether two ensembles are the same in every lane and as given.
func (e *Ensemble) same(f *Ensemble) bool {
	if e == nil || f == nil {
		return e == f
	}
	if e == f {
		return true
	}
	return e.kind == f.kind && e.study == f.study && e.set == f.set && slices.Equal(e.lanes, f.lanes) && e.given.same(f.given)
}

// where describes the case of a lane: "Vin is 18 V and Rtop is 9.9 kΩ".
func (e *Ensemble) where(lane int) string { return e.study.Describe(e.caseAt(lane)) }

// caseAt returns the case of a lane.
func (e *Ensemble) caseAt(lane int) Case {
	s, t := e.study, e.set
	if at := t.flatAt(s); lane >= at {
		if s.cases != nil {
			return s.cases[lane-at]
		}
		return Case{Board: lane - at + 1}
	}
	c := Case{At: map[string]float64{}}
	s.mu.Lock()
	defer s.mu.Unlock()
	if lane >= t.corners {
		i, p := (lane-t.corners)/sweepPoints, (lane-t.corners)%sweepPoints
		c.At[s.sources[t.ids[i]].Key] = sweepPoint(p)
		return c
	}
	for i, id := range t.ids {
		src := s.sources[id]
		end := uint64(lane >> i & 1)
		if len(t.ids) > MaxCorners {
			end = src.scout(lane)
		}
		c.At[src.Key] = float64(2*int(end) - 1)
	}
	return c
}

// sweepPoint is where a sweep stands: −1 … 1, in steps that hit 0.
func sweepPoint(p int) float64 { return float64(2*p-(sweepPoints-1)) / (sweepPoints - 1) }

// Describe says a case in words, of many sources the first.
func (s *Study) Describe(c Case) string { return describe(c, s.Settings(c), described) }

// DescribeAll is Describe with all of them.
func (s *Study) DescribeAll(c Case) string { return describe(c, s.Settings(c), math.MaxInt) }

// Describe says a case of a's sources in words: ranges first, then what moves
// a farthest by itself; of many sources the first.
func (a Quantity) Describe(c Case) string { return describe(c, a.settings(c), described) }

// DescribeAll is Describe with all sources.
func (a Quantity) DescribeAll(c Case) string { return describe(c, a.settings(c), math.MaxInt) }

// settings are those of a case in the order in which they matter to a.
func (a Quantity) settings(c Case) []Setting {
	if a.e == nil || a.e.kind != spreadLive {
		return nil
	}
	moves := map[string]float64{}
	for _, w := range a.Sweeps() {
		at := (c.At[w.Source.Key] + 1) / 2 * float64(len(w.Values)-1)
		moves[w.Source.Key] = math.Abs(w.Values[int(math.Round(at))].v - a.v)
	}
	texts := a.e.study.Settings(c)
	slices.SortStableFunc(texts, func(x, y Setting) int {
		mx, my := moves[x.Key], moves[y.Key]
		switch {
		case (x.Kind == RangeSource) != (y.Kind == RangeSource):
			if x.Kind == RangeSource {
				return -1
			}
			return 1
		case math.Abs(mx-my) <= 1e-9*max(mx, my):
			return 0 // as they stand, by name
		case mx > my:
			return -1
		}
		return 1
	})
	return texts
}

// described is how many sources the words of a case name where there are more
// than one beside.
const described = 5

func describe(c Case, texts []Setting, most int) string {
	if len(texts) == 0 {
		if c.Board > 0 {
			return fmt.Sprintf("board %d of those drawn at random", c.Board)
		}
		return "every value is nominal"
	}
	var parts []string
	for i, t := range texts {
		if i == most && len(texts) > most+1 {
			parts = append(parts, fmt.Sprintf("%d more", len(texts)-i))
			break
		}
		parts = append(parts, t.Name+" is "+t.Text)
	}
	out := strings.Join(parts, ", ")
	if c.Board > 0 {
		out += fmt.Sprintf(", on board %d of those drawn at random", c.Board)
	}
	return out
}

// Setting is where one source stands in a case.
type Setting struct {
	Key, Name string
	Kind      SourceKind
	At        float64 // −1 … 1
	Text      string  // "18 V"
}

// Settings lists where the sources stand that a case names: ranges first,
// then by name. Nominal ones are left out.
func (s *Study) Settings(c Case) []Setting {
	s.mu.Lock()
	defer s.mu.Unlock()
	var out []Setting
	for key, u := range c.At {
		src := s.byKey[key]
		if src == nil || u == 0 {
			continue
		}
		out = append(out, Setting{Key: key, Name: src.Name, Kind: src.Kind, At: u, Text: src.value(u)})
	}
	slices.SortFunc(out, func(a, b Setting) int {
		if (a.Kind == RangeSource) != (b.Kind == RangeSource) {
			if a.Kind == RangeSource {
				return -1
			}
			return 1
		}
		if c := strings.Compare(a.Name, b.Name); c != 0 {
			return c
		}
		return strings.Compare(a.Key, b.Key)
	})
	return out
}
