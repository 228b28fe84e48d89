package protect

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// atMost checks that x is not above a limit that a design must keep, and says
// by how much it is. Both were checked for their kind before.
func atMost(name string, x units.Quantity, limitName string, limit units.Quantity, mend string) error {
	at := argument.Below(limit, x, x, limit, x.Sub(limit))
	if at == nil {
		return nil
	}
	return fmt.Errorf("%s is %s, %s above %s, %s: %s", name, at[0], at[2], limitName, at[1], mend)
}

// atLeast checks, likewise, that x is not below a limit.
func atLeast(name string, x units.Quantity, limitName string, limit units.Quantity, mend string) error {
	at := argument.Below(x, limit, x, limit, limit.Sub(x))
	if at == nil {
		return nil
	}
	return fmt.Errorf("%s is %s, %s below %s, %s: %s", name, at[0], at[2], limitName, at[1], mend)
}

// unused checks that x is not given, and says why it has no place.
func unused(name string, x units.Quantity, why string) error {
	if !argument.Given(x) {
		return nil
	}
	return fmt.Errorf("%s is %v, but %s", name, x, why)
}

// oneOf checks that text is one of the words that a function knows.
func oneOf(name, text string, words ...string) error {
	list := ""
	for i, w := range words {
		if text == w {
			return nil
		}
		switch {
		case i == 0:
		case i == len(words)-1:
			list += " or "
		default:
			list += ", "
		}
		list += fmt.Sprintf("%q", w)
	}
	return fmt.Errorf("%s is %q: write %s", name, text, list)
}

// orElse is x, or what stands for it where x is left out.
func orElse(x, otherwise units.Quantity) units.Quantity {
	if argument.Given(x) {
		return x
	}
	return otherwise
}
