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
	// roundsEverywhere is how long all cases of a value are waited for together.
	roundsEverywhere = 500
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
// What it cannot tell: whether there are other points of rest. It finds the
// one that start leads to. f must return the dimension of start.
func Settle(start units.Quantity, f func(units.Quantity) units.Quantity) units.Quantity {
	if f == nil {
		panic(&units.Error{Msg: "Settle has no function to repeat"})
	}
	s := settling{x: start, part: 1, step: math.Inf(1), best: math.Inf(1)}
	for s.round = 1; s.round <= rounds; s.round++ {
		next := f(s.x)
		s.check(next)
		if s.rest(next) {
			return s.everywhere(next, f)
		}
		s.move(next)
	}
	panic(&units.Error{
		Msg:  fmt.Sprintf("Settle found no rest in %d rounds: the last values are %s", rounds, s.trail()),
		Hint: "start closer to where it should rest, or look for a jump in the function",
	})
}

// everywhere goes on from the rest of the nominal value until x is at rest in
// every case. Where that does not happen soon, a note has to compute the cases
// one by one, each with steps of its own.
func (s *settling) everywhere(next units.Quantity, f func(units.Quantity) units.Quantity) units.Quantity {
	if !next.HasSpread() {
		return next
	}
	s.part, s.step = 1, math.Inf(1)
	where := ""
	for range roundsEverywhere {
		var rest bool
		rest, where = units.Everywhere(func(v []float64) bool {
			return math.Abs(v[1]-v[0]) <= settled*max(math.Abs(v[0]), math.Abs(v[1]))
		}, s.x, next)
		if rest {
			return next
		}
		s.move(next)
		next = f(s.x)
		s.check(next)
	}
	next.NotePart("Settle", where)
	return next
}

// settling is the state of one Settle.
type settling struct {
	x      units.Quantity
	round  int
	last   [3]units.Quantity // newest first
	scale  float64           // larger of the first two values
	part   float64           // of each step that is taken
	step   float64           // f(x) − x of the round before
	best   float64           // least relative step so far
	bestAt int               // the round of it
}

// check panics where next is nothing to go on from.
func (s *settling) check(next units.Quantity) {
	// The constant 0 as a start takes the dimension of the first result.
	if s.x != (units.Quantity{}) && !s.x.Dim().Same(next.Dim()) {
		panic(&units.Error{
			Msg:  fmt.Sprintf("Settle went from %s to %s, which is another dimension", s.x, next),
			Hint: "return from the function what it takes",
		})
	}
	s.last = [3]units.Quantity{next, s.last[0], s.last[1]}
	v := math.Abs(next.SI())
	if s.round == 1 {
		s.scale = max(v, math.Abs(s.x.SI()))
		s.last[1] = s.x
	}
	ok, where := units.Everywhere(func(v []float64) bool {
		return !math.IsNaN(v[0]) && !math.IsInf(v[0], 0) && (s.scale == 0 || math.Abs(v[0]) <= runaway*s.scale)
	}, next)
	if !ok {
		if where != "" {
			where = " " + where
		}
		panic(&units.Error{
			Msg:  fmt.Sprintf("Settle ran away after %d rounds%s: the last values are %s", s.round, where, s.trail()),
			Hint: "the function answers a change with a larger one; a real circuit would run away too",
		})
	}
}

// rest reports whether x no longer moves.
func (s *settling) rest(next units.Quantity) bool {
	a, b := s.x.SI(), next.SI()
	step := math.Abs(b - a)
	if step == 0 {
		return true
	}
	relative := step / max(math.Abs(a), math.Abs(b))
	if relative < s.best {
		s.best, s.bestAt = relative, s.round
	}
	return relative <= settled || relative <= restless && s.round-s.bestAt >= patience
}

// move takes the step to next, or a part of it: half as much after a swing
// that did not calm down, twice as much again after a crawl.
func (s *settling) move(next units.Quantity) {
	step := next.SI() - s.x.SI()
	switch ratio := step / s.step; {
	case ratio < -0.5 && s.part > leastPart:
		s.part /= 2
	case ratio > 0.5 && s.part < 1:
		s.part *= 2
	}
	s.step = step
	// A part of a gain is no gain, so levels and gains take whole steps.
	if k := next.Dim().Kind(); s.part == 1 || k == units.LevelScale || k == units.GainScale {
		s.x = next
		return
	}
	s.x = s.x.Add(next.Sub(s.x).Mul(units.Number(s.part)))
}

// trail is the last values, oldest first.
func (s *settling) trail() string {
	text := s.last[0].Text(6)
	for _, q := range s.last[1:] {
		if q == (units.Quantity{}) {
			break
		}
		text = q.Text(6) + ", " + text
	}
	return text
}
