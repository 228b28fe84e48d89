package builtin

import (
	"fmt"
	"math"

	"ohmwright/units"
)

const (
	// settled is the relative step at which a loop counts as at rest.
	settled = 1e-12
	// restless is the relative step that still counts as rest when the loop
	// has stopped coming closer: the rounding noise of a long f.
	restless = 1e-9
	// patience is how many rounds without progress mean that it has stopped.
	patience = 100
	// rounds is how often f is called at most. A loop that halves its value
	// every round needs 1,100 to reach zero, the slowest honest rest.
	rounds = 10_000
	// runaway is the growth over the first two values at which a loop is given up.
	runaway = 1e30
	// leastPart bounds how small a part of the step is taken.
	leastPart = 1.0 / 65536
)

// Settle repeats x = f(x) from start until x no longer moves, and returns
// that x: the loss that raises the temperature that raises the loss, the
// divider current that loads the divider.
//
// At rest means that f(x) and x differ by no more than 10⁻¹² of the larger,
// or by no more than 10⁻⁹ where rounding inside f lets it come no closer.
// With an f that answers a change of x by the fraction k, the result is off
// by that step divided by 1−k: at k = 0.999 a thousand times more.
//
// Where x swings from side to side without calming down, only a part of each
// step is taken: negative feedback, which in a real circuit settles, does so
// here too. Positive feedback of k ≥ 1 does not: that is a runaway, and
// Settle reports it as *units.Error with the last values, as it does when x
// is no number any more or finds no rest in 10,000 rounds (an f with jumps,
// such as a choice of a preferred value, may swing forever).
//
// Of values with spread, x comes to rest in every case, each with steps of
// its own, as if it were computed by itself; an error names the case.
//
// What it cannot tell: whether there are other points of rest. It finds the
// one that start leads to. f must return the dimension of start.
func Settle(start units.Quantity, f func(units.Quantity) units.Quantity) units.Quantity {
	if f == nil {
		panic(&units.Error{Msg: "Settle has no function to repeat"})
	}
	s := settling{x: start, part: units.Number(1), step: units.Number(math.Inf(1)), best: math.Inf(1)}
	for s.round = 1; s.round <= rounds; s.round++ {
		next := f(s.x)
		s.check(next)
		if s.rest(next) {
			return next
		}
		s.move(next)
	}
	s.must("found no rest in", rounds, "start closer to where it should rest, or look for a jump in the function", func(v []float64) bool {
		return moved(v[1], v[0]) <= settled
	})
	return s.last[0]
}

// settling is the state of one Settle.
type settling struct {
	x      units.Quantity
	round  int
	last   [3]units.Quantity // newest first
	scale  float64           // largest of the first two values
	part   units.Quantity    // of each step that is taken, case by case
	step   units.Quantity    // f(x) − x of the round before, case by case
	best   float64           // least relative step so far, of the case that moves most
	bestAt int               // the round of it
	exact  bool              // there is the nominal case only
}

// check panics where next is nothing to go on from in some case.
func (s *settling) check(next units.Quantity) {
	// The constant 0 as a start takes the dimension of the first result.
	if s.x != (units.Quantity{}) && !s.x.Dim().Same(next.Dim()) {
		panic(&units.Error{
			Msg:  fmt.Sprintf("Settle went from %s to %s, which is another dimension", s.x, next),
			Hint: "return from the function what it takes",
		})
	}
	s.last = [3]units.Quantity{next, s.last[0], s.last[1]}
	if s.round == 1 {
		s.scale = max(math.Abs(next.SI()), math.Abs(s.x.SI()))
		s.last[1] = s.x
	}
	if s.exact = !next.HasSpread() && !s.x.HasSpread(); s.exact && s.here(next.SI()) {
		return
	}
	s.must("ran away after", s.round, "the function answers a change with a larger one; a real circuit would run away too", func(v []float64) bool {
		return s.here(v[0])
	})
}

// here reports whether v is a number that has not run away.
func (s *settling) here(v float64) bool {
	return !math.IsNaN(v) && !math.IsInf(v, 0) && (s.scale == 0 || math.Abs(v) <= runaway*s.scale)
}

// must panics where something does not hold of the last values, newest first,
// in some case.
func (s *settling) must(did string, rounds int, hint string, holds func(v []float64) bool) {
	where, last, ok := units.Everywhere(holds, s.last[0], s.last[1], s.last[2])
	if ok {
		return
	}
	if where != "" {
		where = " " + where
	}
	panic(&units.Error{
		Msg:  fmt.Sprintf("Settle %s %d rounds%s: the last values are %s", did, rounds, where, trail(last)),
		Hint: hint,
	})
}

// moved is the relative step from a to b.
func moved(a, b float64) float64 {
	if a == b {
		return 0
	}
	return math.Abs(b-a) / max(math.Abs(a), math.Abs(b))
}

// rest reports whether x no longer moves in any case.
func (s *settling) rest(next units.Quantity) bool {
	most := moved(s.x.SI(), next.SI())
	if !s.exact {
		units.Everywhere(func(v []float64) bool {
			most = max(most, moved(v[0], v[1]))
			return true
		}, s.x, next)
	}
	if most < s.best {
		s.best, s.bestAt = most, s.round
	}
	return most <= settled || most <= restless && s.round-s.bestAt >= patience
}

// move takes the step to next, or a part of it; each case its own part, so
// that none is held up by another. A part of a gain is no gain, so levels and
// gains take whole steps.
func (s *settling) move(next units.Quantity) {
	k := next.Dim().Kind()
	whole := k == units.LevelScale || k == units.GainScale
	if s.exact {
		step := next.SI() - s.x.SI()
		part := partOf(step, s.step.SI(), s.part.SI())
		s.part, s.step = units.Number(part), units.Number(step)
		if whole || part == 1 {
			s.x = next
			return
		}
		s.x = s.x.Add(next.Sub(s.x).Mul(s.part))
		return
	}
	number := units.Number(1)
	s.part = units.Lanewise("Settle", number, func(v []float64) float64 { return partOf(v[1]-v[0], v[2], v[3]) }, s.x, next, s.step, s.part)
	s.step = units.Lanewise("Settle", number, func(v []float64) float64 { return v[1] - v[0] }, s.x, next)
	s.x = units.Lanewise("Settle", next, func(v []float64) float64 {
		if whole || v[2] == 1 {
			return v[1]
		}
		return v[0] + (v[1]-v[0])*v[2]
	}, s.x, next, s.part)
}

// partOf is the part that is taken of a step after a part of the last one:
// half as much after a swing that did not calm down, twice as much again
// after a crawl.
func partOf(step, last, part float64) float64 {
	switch ratio := step / last; {
	case ratio < -0.5 && part > leastPart:
		return part / 2
	case ratio > 0.5 && part < 1:
		return part * 2
	}
	return part
}

// trail is the last values, oldest first.
func trail(last []units.Quantity) string {
	text := last[0].Text(6)
	for _, q := range last[1:] {
		if q == (units.Quantity{}) {
			break
		}
		text = q.Text(6) + ", " + text
	}
	return text
}
