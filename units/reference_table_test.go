package units

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// The tables of testdata/spread come from numpy, scipy, python3-uncertainties
// and arithmetic; README.md there says what each column is and whence.

// row is one line of a table, by column.
type row map[string]string

func (r row) number(t testing.TB, column string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		t.Fatalf("%s: %s: %v", r["case"], column, err)
	}
	return x
}

func readTable(t testing.TB, name string) []row {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "testdata", "spread", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	lines, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []row
	for _, l := range lines[1:] {
		m := row{}
		for i, c := range lines[0] {
			m[c] = l[i]
		}
		out = append(out, m)
	}
	return out
}

// byCase groups the rows of a table, in their order.
func byCase(rows []row) map[string][]row {
	out := map[string][]row{}
	for _, r := range rows {
		out[r["case"]] = append(out[r["case"]], r)
	}
	return out
}

// classes are of the histograms that stand for shapes which units does not
// have by name. Their shares are exact, so percentiles are good to a class.
const classes = 4000

// declare makes an input as its table says.
func declare(t testing.TB, in row) Quantity {
	t.Helper()
	low, mid, high := in.number(t, "low"), in.number(t, "nominal"), in.number(t, "high")
	band := func() Quantity { return Band(Number(low), Number(mid), Number(high)) }
	switch in["shape"] {
	case "exact":
		return Number(mid)
	case "uniform":
		return band()
	case "normal":
		return Normal(band(), 3)
	case "triangular":
		return histogram(low, high, func(u float64) float64 {
			if u < 0.5 {
				return 2 * u * u
			}
			return 1 - 2*(1-u)*(1-u)
		})
	case "arcsine":
		return histogram(low, high, func(u float64) float64 { return 2 / math.Pi * math.Asin(math.Sqrt(u)) })
	}
	t.Fatalf("%s: the shape %s is not known", in["case"], in["shape"])
	return Quantity{}
}

// histogram tables a distribution between its limits; share(u) of all parts
// lies below low + u (high − low).
func histogram(low, high float64, share func(u float64) float64) Quantity {
	edges, counts := []Quantity{Number(low)}, []float64(nil)
	for i := range classes {
		u := float64(i+1) / classes
		x := low + u*(high-low)
		if i == classes-1 {
			x = high
		}
		edges = append(edges, Number(x))
		counts = append(counts, share(u)-share(float64(i)/classes))
	}
	return Histogram(edges, counts)
}

// evaluate computes an expression in reverse Polish words.
func evaluate(t testing.TB, rpn string, names map[string]Quantity) Quantity {
	t.Helper()
	unary := map[string]func(Quantity) Quantity{"neg": Quantity.Neg, "Sqrt": Sqrt, "Exp": Exp, "Ln": Ln, "Log10": Log10, "Abs": Abs, "Sin": Sin, "Cos": Cos, "Atan": Atan}
	binary := map[string]func(a, b Quantity) Quantity{"+": Quantity.Add, "-": Quantity.Sub, "*": Quantity.Mul, "/": Quantity.Div,
		"Pow":      func(a, b Quantity) Quantity { return Pow(a, b.SI()) },
		"Min":      func(a, b Quantity) Quantity { return Min(a, b) },
		"Max":      func(a, b Quantity) Quantity { return Max(a, b) },
		"Parallel": func(a, b Quantity) Quantity { return Parallel(a, b) }}
	var stack []Quantity
	for _, w := range strings.Fields(rpn) {
		n := len(stack)
		if f := unary[w]; f != nil {
			stack[n-1] = f(stack[n-1])
			continue
		}
		if f := binary[w]; f != nil {
			stack = append(stack[:n-2], f(stack[n-2], stack[n-1]))
			continue
		}
		if q, ok := names[w]; ok {
			stack = append(stack, q)
			continue
		}
		x, err := strconv.ParseFloat(w, 64)
		if w == "Pi" {
			x, err = math.Pi, nil
		}
		if err != nil {
			t.Fatalf("the word %q of %q is not known", w, rpn)
		}
		stack = append(stack, Number(x))
	}
	if len(stack) != 1 {
		t.Fatalf("%q leaves %d values", rpn, len(stack))
	}
	return stack[0]
}

// place puts the inputs of a table into a study, under their names.
func place(t testing.TB, s *Study, inputs []row) map[string]Quantity {
	t.Helper()
	names := map[string]Quantity{}
	for _, in := range inputs {
		names[in["name"]] = s.Place(in["name"], in["name"], declare(t, in))
	}
	return names
}

// cornerAt is the corner that a table writes as "+-.".
func cornerAt(inputs []row, at string) Case {
	c := Case{At: map[string]float64{}}
	for i, in := range inputs {
		switch at[i] {
		case '+':
			c.At[in["name"]] = 1
		case '-':
			c.At[in["name"]] = -1
		}
	}
	return c
}

// slope is the derivative of y by x at the nominal value, from the middle of
// their sweeps: of the polynomial through five points.
func slope(x, y []Quantity) float64 {
	const k, first, last = sweepPoints / 2, sweepPoints/2 - 2, sweepPoints/2 + 2
	sum := 0.0
	for j := first; j <= last; j++ {
		w := 1.0
		if j == k {
			w = 0
		}
		for m := first; m <= last; m++ {
			switch {
			case j == k && m != k:
				w += 1 / (x[k].SI() - x[m].SI())
			case j != k && m != j && m != k:
				w *= (x[k].SI() - x[m].SI()) / (x[j].SI() - x[m].SI())
			case j != k && m == k:
				w /= x[j].SI() - x[k].SI()
			}
		}
		sum += w * y[j].SI()
	}
	return sum
}
