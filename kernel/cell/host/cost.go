package host

import (
	"math"
	"reflect"
	"strings"
)

// Cost returns how many bytes a call of a compiled function may make out of
// its arguments, where that can be far more than the arguments themselves:
// strings.Repeat("x", 1<<40) would end the whole process before anybody could
// stop it, as printing a list that contains itself would. It is 0 for every
// function that returns no more than a small multiple of what it was given.
// Methods are named "Type.Method", and args then holds the receiver first; a
// variadic function has its last arguments in one slice.
//
// It is an upper bound, not a measurement; math.MaxInt64 means more than
// there is.
func (w *World) Cost(pkgPath, name string, args []reflect.Value) int64 {
	estimate := costs[pkgPath+"."+name]
	if estimate == nil {
		return 0
	}
	if c := estimate(args); c < math.MaxInt64 {
		return int64(c)
	}
	return math.MaxInt64
}

// Estimates are floats, because their products leave the integers.
var costs = map[string]func(args []reflect.Value) float64{
	"strings.Repeat":                 func(a []reflect.Value) float64 { return textSize(a[0]) * count(a[1]) },
	"strings.Join":                   func(a []reflect.Value) float64 { return textSize(a[0]) + textSize(a[1])*float64(a[0].Len()) },
	"strings.Replace":                func(a []reflect.Value) float64 { return replaced(a[0], a[2]) },
	"strings.ReplaceAll":             func(a []reflect.Value) float64 { return replaced(a[0], a[2]) },
	"strings.Split":                  func(a []reflect.Value) float64 { return pieces * textSize(a[0]) },
	"strings.SplitN":                 func(a []reflect.Value) float64 { return pieces * textSize(a[0]) },
	"strings.SplitAfter":             func(a []reflect.Value) float64 { return pieces * textSize(a[0]) },
	"strings.SplitAfterN":            func(a []reflect.Value) float64 { return pieces * textSize(a[0]) },
	"strings.Fields":                 func(a []reflect.Value) float64 { return pieces * textSize(a[0]) },
	"strings.Builder.Grow":           func(a []reflect.Value) float64 { return count(a[1]) },
	"strings.Builder.Write":          func(a []reflect.Value) float64 { return float64(a[1].Len()) },
	"strings.Builder.WriteString":    func(a []reflect.Value) float64 { return float64(a[1].Len()) },
	"strconv.FormatFloat":            func(a []reflect.Value) float64 { return longestFloat + count(a[2]) },
	"strconv.AppendFloat":            func(a []reflect.Value) float64 { return longestFloat + count(a[3]) },
	"ohmwright/units.Column":         func(a []reflect.Value) float64 { return written(a[0]) * float64(a[1].Len()) },
	"ohmwright/units.Quantity.Text":  func(a []reflect.Value) float64 { return written(a[1]) },
	"ohmwright/units.Quantity.Parts": func(a []reflect.Value) float64 { return written(a[1]) },
	"fmt.Sprint":                     func(a []reflect.Value) float64 { return textSize(a[0]) },
	"fmt.Sprintln":                   func(a []reflect.Value) float64 { return textSize(a[0]) },
	"fmt.Print":                      func(a []reflect.Value) float64 { return textSize(a[0]) },
	"fmt.Println":                    func(a []reflect.Value) float64 { return textSize(a[0]) },
	"fmt.Append":                     func(a []reflect.Value) float64 { return textSize(a[1]) },
	"fmt.Appendln":                   func(a []reflect.Value) float64 { return textSize(a[1]) },
	"fmt.Sprintf":                    func(a []reflect.Value) float64 { return formatted(a[0], a[1]) },
	"fmt.Printf":                     func(a []reflect.Value) float64 { return formatted(a[0], a[1]) },
	"fmt.Errorf":                     func(a []reflect.Value) float64 { return formatted(a[0], a[1]) },
	"fmt.Appendf":                    func(a []reflect.Value) float64 { return formatted(a[1], a[2]) },
}

func count(v reflect.Value) float64 { return max(0, float64(v.Int())) }

// written bounds a quantity written with so many digits; its parts are built
// up one after the other.
func written(digits reflect.Value) float64 { return longestFloat + 4*count(digits) }

// replaced bounds s with something new before each byte and at the end.
func replaced(s, by reflect.Value) float64 {
	return textSize(s) + (textSize(s)+1)*textSize(by)
}

const (
	// widest is the largest width and precision that fmt obeys.
	widest = 1e6
	// longestFloat is what %f makes of the largest float64.
	longestFloat = 320
	// pieces is what a byte of a text can become where the text is cut up: a
	// string's header here and its boxed form in the executor.
	pieces = 64
	// escaped is what a byte of a string can become: " 0xff" for % #x.
	escaped = 5
)

// formatted bounds what a format makes of its arguments: each verb may print
// the largest of them, which an index (%[1]s) allows, as wide as the widest
// number in the format says.
func formatted(format, args reflect.Value) float64 {
	f := format.String()
	largest := float64(longestFloat)
	for i := range args.Len() {
		largest = max(largest, textSize(args.Index(i)))
	}
	return float64(len(f)) + float64(strings.Count(f, "%"))*(escaped*largest+width(f))
}

// width is the largest number in a format; a star may be any.
func width(format string) float64 {
	if strings.Contains(format, "*") {
		return widest
	}
	most, n := 0.0, 0.0
	for _, c := range []byte(format) {
		if c < '0' || c > '9' {
			n = 0
			continue
		}
		n = n*10 + float64(c-'0')
		most = max(most, n)
	}
	return min(most, widest)
}

// textSize bounds the text that %v makes of a value: a string as long as it
// is, anything else 32 bytes a number or word. What has more than a million
// parts, or contains itself, is more than there is.
func textSize(v reflect.Value) float64 {
	m := measure{left: 1_000_000}
	if v.Kind() == reflect.Pointer && !v.IsNil() {
		v = v.Elem() // which fmt does at the top only
	}
	return m.size(v, 0)
}

// deepest is how deep fmt may go into a value before its own stack is at risk.
const deepest = 10_000

type measure struct{ left int }

func (m *measure) size(v reflect.Value, depth int) float64 {
	if m.left--; m.left < 0 || depth > deepest {
		return math.Inf(1)
	}
	total := 32.0
	switch v.Kind() {
	case reflect.Invalid:
	case reflect.String:
		total = float64(v.Len())
	case reflect.Interface:
		total = m.size(v.Elem(), depth+1)
	case reflect.Slice, reflect.Array:
		if flat(v.Type().Elem().Kind()) {
			return total * float64(v.Len())
		}
		for i := 0; i < v.Len() && m.left >= 0; i++ {
			total += m.size(v.Index(i), depth+1)
		}
	case reflect.Map:
		for it := v.MapRange(); it.Next() && m.left >= 0; {
			total += m.size(it.Key(), depth+1) + m.size(it.Value(), depth+1)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			total += m.size(v.Field(i), depth+1)
		}
	}
	return total
}

// flat reports whether values of the kind print in at most 32 bytes.
func flat(k reflect.Kind) bool { return k <= reflect.Complex128 || k == reflect.Pointer }
