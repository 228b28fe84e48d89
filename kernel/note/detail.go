package note

import (
	"context"
	"math"
	"sort"

	"gonum.org/v1/gonum/mathext"

	"ohmwright/units"
)

// confidence returns the limits within which the share of all boards that
// pass lies with 95 % confidence, where passed of drawn did: C. Clopper and
// E. Pearson, Biometrika 26 (1934) 404.
func confidence(passed, drawn int) (low, high float64) {
	low, high = 0, 1
	k, n := float64(passed), float64(drawn)
	if passed > 0 {
		low = mathext.InvRegIncBeta(k, n-k+1, 0.025)
	}
	if passed < drawn {
		high = mathext.InvRegIncBeta(k+1, n-k, 0.975)
	}
	return low, high
}

// sharePoints is how many quantiles stand for the distribution of one ± in the
// share that it has.
const sharePoints = 200

// detail completes what a Spread shows.
func (n *Note) detail(ctx context.Context, c *node, s *Spreading) {
	x := s.live
	if s.Spread == nil {
		return
	}
	s.Assumed = assumed(x)
	s.Boards = n.study.Options().Boards
	t := target{cell: c, key: s.key}
	if err := n.chance(ctx, t, s); err != nil {
		s.Trouble = err.Error()
		return
	}
	if err := n.shares(ctx, t, s); err != nil {
		s.Trouble = err.Error()
		return
	}
	if !x.HasChance() {
		return
	}
	for _, p := range []float64{0.5, 5, 50, 95, 99.5} {
		if v, ok := x.Percentile(p); ok {
			s.Percentiles = append(s.Percentiles, Percentile{p, v})
		}
	}
	s.Bins = bins(x)
}

// chance computes the root-sum-square extremes: where ranges and drifts stand
// as in the extreme (so that drifts add straight), the root of the sum of
// squares of what every ± does alone.
func (n *Note) chance(ctx context.Context, t target, s *Spreading) error {
	side := func(known units.Case, sign float64) (*units.Quantity, error) {
		base := map[string]float64{}
		for _, src := range s.live.Sources() {
			if src.Kind != units.PartSource {
				base[src.Key] = known.At[src.Key]
			}
		}
		cases := []units.Case{{At: base}}
		for _, src := range s.live.Sources() {
			if src.Kind != units.PartSource {
				continue
			}
			for _, k := range src.Terms() {
				cases = append(cases, units.Case{At: with(base, k, -1)}, units.Case{At: with(base, k, 1)})
			}
		}
		if len(cases) == 1 {
			return nil, nil
		}
		lanes, err := n.lanes(ctx, []target{t}, [][]units.Case{cases})
		if err != nil {
			return nil, err
		}
		v := numbers(lanes[0])
		squares := 0.0
		for i := 1; i < len(v); i += 2 {
			off := max(sign*(v[i]-v[0]), sign*(v[i+1]-v[0]), 0)
			squares += off * off
		}
		q := units.Nominal(s.live).WithSI(v[0] + sign*math.Sqrt(squares))
		return &q, nil
	}
	var err error
	if s.RSSLow, err = side(s.Spread.lowCase, -1); err != nil {
		return err
	}
	s.RSSHigh, err = side(s.Spread.highCase, 1)
	return err
}

// shares computes what each source has in the extremes (how far the extreme
// goes back when it alone is nominal) and in the variance (of what each ±
// does while all else is nominal).
func (n *Note) shares(ctx context.Context, t target, s *Spreading) error {
	sources := s.live.Sources()
	low, high := s.Spread.lowCase.At, s.Spread.highCase.At
	cases := []units.Case{{At: low}, {At: high}}
	for _, src := range sources {
		cases = append(cases, units.Case{At: with(low, src.Key, 0)}, units.Case{At: with(high, src.Key, 0)})
	}
	for _, src := range sources {
		for _, term := range src.Terms() {
			others := map[string]float64{}
			for _, o := range sources {
				if o.Key != src.Key {
					others[o.Key] = 0
				}
			}
			for _, other := range src.Terms() {
				if other != term {
					others[other] = 0
				}
			}
			for p := range sharePoints {
				cases = append(cases, units.Case{At: others, Quantile: (float64(p) + 0.5) / sharePoints})
			}
		}
	}
	lanes, err := n.lanes(ctx, []target{t}, [][]units.Case{cases})
	if err != nil {
		return err
	}
	v := numbers(lanes[0])
	total, variances := 0.0, 0.0
	at := 2 + 2*len(sources)
	for i, src := range sources {
		share := Share{Name: src.Name, Kind: src.Kind}
		share.Extreme = math.Abs(v[0]-v[2+2*i]) + math.Abs(v[1]-v[3+2*i])
		total += share.Extreme
		for range src.Terms() {
			share.Variance += variance(v[at : at+sharePoints])
			at += sharePoints
		}
		variances += share.Variance
		s.Shares = append(s.Shares, share)
	}
	if std, ok := s.live.Std(); ok { // together they may do more than alone
		variances = max(variances, std.SI()*std.SI())
	}
	for i := range s.Shares {
		if total > 0 {
			s.Shares[i].Extreme /= total
		}
		if variances > 0 {
			s.Shares[i].Variance /= variances
		}
	}
	sort.SliceStable(s.Shares, func(i, j int) bool {
		a, b := s.Shares[i], s.Shares[j]
		if !near(a.Extreme, b.Extreme) {
			return a.Extreme > b.Extreme
		}
		return a.Name < b.Name
	})
	return nil
}

func variance(x []float64) float64 {
	mean := 0.0
	for _, v := range x {
		mean += (v - x[0]) / float64(len(x))
	}
	sum := 0.0
	for _, v := range x {
		d := v - x[0] - mean
		sum += d * d
	}
	return sum / float64(len(x))
}

// bins counts the boards in twenty classes between the least and the largest.
func bins(x units.Quantity) []Bin {
	v := numbers(x.Boards())
	low, high := v[0], v[0]
	for _, b := range v {
		low, high = min(low, b), max(high, b)
	}
	const classes = 20
	if !(high > low) {
		return nil
	}
	out := make([]Bin, classes)
	exact := units.Nominal(x)
	for i := range out {
		out[i].From = exact.WithSI(low + (high-low)*float64(i)/classes)
		out[i].To = exact.WithSI(low + (high-low)*float64(i+1)/classes)
	}
	for _, b := range v {
		out[min(int((b-low)/(high-low)*classes), classes-1)].Boards++
	}
	return out
}
