// Package preferred chooses values that can be bought: the preferred numbers
// of IEC 60063 (E3 to E192), a person's own stock, and the codes with which
// parts are marked (IEC 60062 letters, figures and colours, and the
// two-figure code of 1 % chip resistors).
//
// A Series is what is on offer. Nearest, AtLeast and AtMost choose one value
// from it, RatioPair, SeriesPair and ParallelPair choose two:
//
//	Nearest(E96, 1.905kΩ)                      // 1.91 kΩ
//	AtLeast(E12, 95uF)                         // 100 µF
//	RatioPair(E96, 3.125, 10kΩ, 1MΩ)           // the two resistors of a divider
//
// What fails: a preferred value of a negative number, of zero, of a
// temperature or of a level, and AtLeast or AtMost of a value with spread,
// for which it must be said which end counts:
//
//	AtLeast(E24, High(Rmin))
//
// A choice is made on the nominal value and is exact: 1.91 kΩ is the float64
// nearest to 1910 Ω, in the unit of what was asked for. What the package
// cannot know is whether a shop has the value, in the size, rating and
// tolerance needed: E192 members are rare outside of 0.5 % and better.
package preferred
