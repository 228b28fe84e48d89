package preferred

// Series is a set of values to choose from: one of IEC 60063, which repeats
// in every decade, or a stock. It is a plain value; two series with the same
// members and name are equal.
type Series struct {
	Name string
	// stock holds the values of a stock in full, rising, one a line; it is
	// empty for a series of the standard, which its name identifies. A string
	// keeps the type comparable and unchangeable.
	stock string
}

// The series of IEC 60063. The number is that of members in a decade; the
// usual tolerances are 20 % (E6), 10 % (E12), 5 % (E24), 2 % (E48), 1 % (E96)
// and 0.5 % and better (E192); E3 is used for electrolytic capacitors.
var (
	E3   = Series{Name: "E3"}
	E6   = Series{Name: "E6"}
	E12  = Series{Name: "E12"}
	E24  = Series{Name: "E24"}
	E48  = Series{Name: "E48"}
	E96  = Series{Name: "E96"}
	E192 = Series{Name: "E192"}
)

// String returns the name of the series.
func (s Series) String() string { return s.Name }
