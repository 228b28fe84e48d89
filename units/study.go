package units

import (
	"fmt"
	"hash/fnv"
	"maps"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// Study is one evaluation of values that spread: which sources of spread
// there are, which cases of each value are computed, and what was noticed on
// the way. Values of one Study may be combined with each other and with exact
// values.
//
// Every value is computed in its corners (each of its sources at one end or
// the other: all of them up to MaxCorners sources, beyond that a sample), in
// sweeps (one source walks from end to end, the others stay nominal), and on
// boards (parts drawn at random, ranges at their usual value). A Study of
// stated cases (see Restrict) computes those in place of all of that.
//
// A Study may be used by several goroutines.
type Study struct {
	options StudyOptions
	cases   []Case // of a restricted study

	mu      sync.Mutex
	sources []*Source
	byKey   map[string]*Source
	sets    map[string]*sourceSet
	unions  map[[2]*sourceSet]*sourceSet
	joins   map[[2]*sourceSet]*gather
	split   []Split
	splits  int
}

// StudyOptions are what a person may choose.
type StudyOptions struct {
	Boards int    // drawn at random [DefaultBoards]
	Parts  Shape  // how parts spread that do not say so themselves [uniform]
	Seed   uint64 // of the drawing
}

// DefaultBoards is how many boards a study draws. If all of them pass, at
// least 99.8 % of all boards do (95 % confidence).
const DefaultBoards = 2000

// MaxCorners is the largest number of sources in a value of which every
// corner is computed.
const MaxCorners = 10

const (
	sweepPoints = 33   // of a sweep, both ends and the nominal value among them
	scouts      = 1024 // corners sampled of a value with more sources
)

// SourceKind says how a source of spread counts.
type SourceKind uint8

const (
	PartSource  SourceKind = iota // differs from part to part
	RangeSource                   // what every board meets all of
	DriftSource                   // what every board does with age: it adds straight
)

// Source is a source of spread: one part, one range, one drift.
type Source struct {
	Key   string // the same for the same place in a note, however often it is computed
	Name  string // for people
	Kind  SourceKind
	Shape Shape // of a part
	// Bounded: no part lies outside the limits, as those of a normal shape do.
	Bounded bool

	streams []int // of drawing: one for each ± that is a matter of chance

	id    int
	hash  uint64
	value func(u float64) string // what it is at u, for people
}

// NewStudy makes an empty study.
func NewStudy(o StudyOptions) *Study {
	if o.Boards == 0 {
		o.Boards = DefaultBoards
	}
	return newStudy(o)
}

func newStudy(o StudyOptions) *Study {
	return &Study{options: o, byKey: map[string]*Source{}, sets: map[string]*sourceSet{},
		unions: map[[2]*sourceSet]*sourceSet{}, joins: map[[2]*sourceSet]*gather{}}
}

// Options returns what the study was made with.
func (s *Study) Options() StudyOptions { return s.options }

// Len is how many sources were placed, those that nothing has any more among them.
func (s *Study) Len() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return len(s.sources)
}

// Restrict makes a study of the same parts in stated cases only: their values
// are in Lanes, in the order of the cases.
func (s *Study) Restrict(cases []Case) *Study {
	r := newStudy(s.options)
	r.cases = cases
	return r
}

// Case is what the sources of spread are in one evaluation.
type Case struct {
	// At says where sources stand, by their key: −1 at the lower end, 0 at the
	// nominal value, 1 at the upper end.
	At map[string]float64
	// Board, from 1 on, draws the parts that At does not name at random, as on
	// that board. 0: what At does not name is nominal.
	Board int
	// Quantile, between 0 and 1, puts the parts that At does not name there in
	// their distribution, in place of a board.
	Quantile float64
}

// Split is a decision that does not come out alike in all cases.
type Split struct {
	Text string // "Vin < Vout"
	Case string // where it comes out otherwise
}

// TakeSplits returns the decisions noticed since the last call and how many
// there were.
func (s *Study) TakeSplits() (first []Split, total int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	first, total = s.split, s.splits
	s.split, s.splits = nil, 0
	return first, total
}

// Parted reports whether a decision was noticed since the last TakeSplits.
func (s *Study) Parted() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.splits > 0
}

// NoteSplit records that a decision was taken on the nominal values although
// it does not come out alike in all cases.
func (s *Study) NoteSplit(text, where string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.splits++
	if len(s.split) < 8 {
		s.split = append(s.split, Split{text, where})
	}
}

// flat is the number of lanes behind the corners and sweeps.
func (s *Study) flat() int {
	if s.cases != nil {
		return len(s.cases)
	}
	return s.options.Boards
}

// source registers a source; the same key is the same source again.
func (s *Study) source(src Source) *Source {
	s.mu.Lock()
	defer s.mu.Unlock()
	// Under another name it is another source, drawn alike: what shows the old
	// name has to be computed again.
	if old := s.byKey[src.Key]; old != nil && old.Name == src.Name {
		src.id, src.hash = old.id, old.hash
		s.sources[src.id] = &src
		s.byKey[src.Key] = &src
		return &src
	}
	src.id, src.hash = len(s.sources), hashOf(s.options.Seed, src.Key)
	s.sources = append(s.sources, &src)
	s.byKey[src.Key] = &src
	return &src
}

// NameOf returns what people call the source with a key.
func (s *Study) NameOf(key string) (name string, ok bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	src := s.byKey[key]
	if src == nil {
		return "", false
	}
	return src.Name, true
}

func (s *Study) sourceAt(id int) *Source {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.sources[id]
}

// sourceSet is the sources of a value. Equal sets of a study are one object.
type sourceSet struct {
	ids     []int // in the order of their keys, whichever was placed first
	corners int   // lanes
	width   int   // lanes in all
}

// sweepAt is where the sweep of the i-th source starts.
func (t *sourceSet) sweepAt(i int) int { return t.corners + i*sweepPoints }

// flatAt is where the boards (or stated cases) start.
func (t *sourceSet) flatAt(s *Study) int { return t.width - s.flat() }

// set returns the set of these ids, in the order of their keys. mu is held.
func (s *Study) set(ids []int) *sourceSet {
	key := fmt.Sprint(ids)
	t := s.sets[key]
	if t == nil {
		t = &sourceSet{ids: ids, width: s.flat()}
		if s.cases == nil {
			t.corners = scouts
			if len(ids) <= MaxCorners {
				t.corners = 1 << len(ids)
			}
			t.width += t.corners + len(ids)*sweepPoints
		}
		s.sets[key] = t
	}
	return t
}

func (s *Study) setOf(ids ...int) *sourceSet {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.set(ids)
}

// union returns the sources of a and b together.
func (s *Study) union(a, b *sourceSet) *sourceSet {
	if a == b {
		return a
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	k := [2]*sourceSet{a, b}
	u := s.unions[k]
	if u == nil {
		ids := slices.Concat(a.ids, b.ids)
		slices.SortFunc(ids, func(i, j int) int { return strings.Compare(s.sources[i].Key, s.sources[j].Key) })
		u = s.set(slices.Compact(ids))
		s.unions[k], s.unions[[2]*sourceSet{b, a}] = u, u
	}
	return u
}

// gather says where a lane of a larger set is found among those of a smaller.
type gather struct {
	corner []int32 // of each corner
	row    []int   // of each sweep: the sweep of the smaller set, -1 for none
}

func (s *Study) gather(from, to *sourceSet) *gather {
	s.mu.Lock()
	defer s.mu.Unlock()
	k := [2]*sourceSet{from, to}
	j := s.joins[k]
	if j != nil {
		return j
	}
	j = &gather{row: make([]int, len(to.ids))}
	place := make([]int, len(from.ids)) // of each source of from in to
	found := 0
	for i, id := range to.ids {
		p := slices.Index(from.ids, id)
		j.row[i] = p
		if p >= 0 {
			place[p] = i
			found++
		}
	}
	if found < len(from.ids) {
		panic("units: a value has sources that are not among those of its cases")
	}
	j.corner = make([]int32, to.corners)
	for c := range j.corner {
		switch {
		case len(to.ids) <= MaxCorners:
			for p, i := range place {
				j.corner[c] |= int32(c>>i&1) << p
			}
		case len(from.ids) <= MaxCorners:
			for p, id := range from.ids {
				j.corner[c] |= int32(s.sources[id].scout(c)) << p
			}
		default:
			j.corner[c] = int32(c)
		}
	}
	s.joins[k] = j
	return j
}

// scout is the end at which a source stands in a sampled corner: 0 or 1.
func (src *Source) scout(corner int) uint64 {
	return mix(src.hash^0xa5a5a5a5a5a5a5a5, uint64(corner)) & 1
}

// Terms are the keys under which a Case may state each ± of the source by
// itself.
func (src Source) Terms() []string {
	var keys []string
	for _, i := range src.streams {
		keys = append(keys, src.term(i))
	}
	return keys
}

func (src Source) term(stream int) string { return src.Key + "±" + strconv.Itoa(stream) }

func hashOf(seed uint64, key string) uint64 {
	h := fnv.New64a()
	h.Write([]byte(key))
	return mix(h.Sum64(), seed)
}

// mix is the finalizer of SplitMix64 (Steele, Lea and Flood, OOPSLA 2014) over
// a counter: the i-th number of a stream without computing those before.
func mix(stream, i uint64) uint64 {
	z := stream + (i+1)*0x9e3779b97f4a7c15
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// stream is the term-th stream of random numbers of a source.
func (src *Source) stream(term int) uint64 { return src.hash + uint64(term)*0x2545f4914f6cdd1d }

// drawn is the random number of a stream for a board, between 0 and 1, both
// excluded.
func drawn(stream uint64, board int) float64 {
	return (float64(int64(mix(stream, uint64(board))>>11)) + 0.5) / (1 << 53)
}

// Aside lets values be placed that only stand in for those of the study for
// a while. What it returns ends that: the sources are again what they were, and
// decisions that were noticed meanwhile are forgotten. What was computed
// meanwhile stays good.
func (s *Study) Aside() (back func()) {
	s.mu.Lock()
	defer s.mu.Unlock()
	sources, split, splits := slices.Clone(s.sources), s.split, s.splits
	byKey := maps.Clone(s.byKey)
	return func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		copy(s.sources, sources)
		maps.Copy(s.byKey, byKey)
		s.split, s.splits = split, splits
	}
}
