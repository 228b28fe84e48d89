package units

import "fmt"

// Format writes a for the fmt verbs. %v and %s write it as Text does, with
// the precision as the number of significant digits (4 without one): %.6v.
// %e, %f and %g write the number, in the unit without a prefix, as they write
// a float64, and the unit behind it: %.2f of 1.5 mV is "0.00 V".
func (a Quantity) Format(f fmt.State, verb rune) {
	var s string
	switch verb {
	case 'v', 's':
		digits, ok := f.Precision()
		if !ok {
			digits = 4
		}
		s = a.Text(digits)
	case 'e', 'E', 'f', 'F', 'g', 'G':
		u := a.printed()
		x := a.v
		if !u.pure || u.pow10 != 0 {
			x, _ = u.fromSI(a.v).Float64()
		}
		format := "%"
		for _, flag := range "+-# 0" {
			if f.Flag(int(flag)) && flag != '-' && flag != '0' {
				format += string(flag)
			}
		}
		if p, ok := f.Precision(); ok {
			format += fmt.Sprintf(".%d", p)
		}
		s = join(fmt.Sprintf(format+string(verb), x), u.Symbol)
	default:
		fmt.Fprintf(f, "%%!%c(units.Quantity=%s)", verb, a.String())
		return
	}
	width, ok := f.Width()
	if !ok {
		fmt.Fprint(f, s)
		return
	}
	if f.Flag('-') {
		width = -width
	}
	fmt.Fprintf(f, "%*s", width, s)
}
