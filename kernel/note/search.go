package note

import (
	"math"
	"sort"

	"ohmwright/units"
)

// search looks for the smallest or the largest value of something over all of
// its sources, where corners and sweeps do not settle it: because an extreme
// lies inside a range or band, or because there are too many corners to visit.
//
// From the best case known it walks one source at a time, over a grid that
// gets finer around the best point, until no step improves.
type search struct {
	sign   float64 // 1 for the largest value, −1 for the smallest
	keys   []string
	inside bool // some sweep has its extreme between its ends

	best   map[string]float64
	value  float64
	radius float64
	first  []map[string]float64 // to try before anything else
	tried  []map[string]float64
	rounds int
	done   bool
}

const (
	searchRounds = 40
	searchPoints = 8 // on each side of the best point
	searchFinest = 1e-6
)

// newSearch starts from what is known of x.
func newSearch(x units.Quantity, sign float64) *search {
	low, high, _ := x.Extremes()
	start := high
	if sign < 0 {
		start = low
	}
	s := &search{sign: sign, inside: x.Inside(), best: start.Case.At, value: start.Value.SI(), radius: 2}
	guess := map[string]float64{} // every source where its own sweep is best
	for _, w := range x.Sweeps() {
		s.keys = append(s.keys, w.Source.Key)
		at, last := 0, len(w.Values)-1
		for i, v := range w.Values {
			if sign*v.SI() > sign*w.Values[at].SI() {
				at = i
			}
		}
		guess[w.Source.Key] = 2*float64(at)/float64(last) - 1
		// The best corner, but this source where its sweep is best.
		if at != 0 && at != last {
			mixed := with(s.best, w.Source.Key, guess[w.Source.Key])
			s.first = append(s.first, mixed)
		}
	}
	sort.Strings(s.keys)
	s.first = append(s.first, guess)
	return s
}

func with(at map[string]float64, key string, u float64) map[string]float64 {
	out := make(map[string]float64, len(at)+1)
	for k, v := range at {
		out[k] = v
	}
	out[key] = u
	return out
}

// next lists the cases to compute next; none when the search is over.
func (s *search) next() []units.Case {
	if s.done {
		return nil
	}
	s.tried = s.first
	s.first = nil
	if s.tried == nil {
		for _, key := range s.keys {
			here := s.best[key]
			if s.radius < 1 && math.Abs(here) == 1 && s.rounds > 1 {
				continue // an end stays an end while the grid gets finer
			}
			points := searchPoints
			if !s.inside {
				points = 1 // ends only
			}
			for p := -points; p <= points; p++ {
				u := here + s.radius*float64(p)/float64(points)
				if p != 0 && (u > 1 || u < -1) {
					u = max(-1, min(1, u))
				}
				if u != here {
					s.tried = append(s.tried, with(s.best, key, u))
				}
			}
		}
	}
	var cases []units.Case
	for _, at := range s.tried {
		cases = append(cases, units.Case{At: at})
	}
	return cases
}

// learn takes what the cases of next came to.
func (s *search) learn(values []float64) {
	if s.done {
		return
	}
	better := false
	for i, v := range values {
		if s.sign*(v-s.value) > 1e-13*math.Abs(s.value) {
			s.best, s.value, better = s.tried[i], v, true
		}
	}
	s.rounds++
	switch {
	case s.rounds == 1: // the first guesses
	case better:
	case !s.inside:
		s.done = true
	default:
		s.radius /= 4
	}
	if s.radius < searchFinest || s.rounds >= searchRounds || len(s.tried) == 0 {
		s.done = true
	}
}
