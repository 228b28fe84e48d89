package note_test

import (
	"testing"

	"ohmwright/kernel/note"
)

// A limit that is met but for the last digits of the arithmetic is met; one
// that must not be reached is not.
func TestMarginsWithinRounding(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		code  string
		holds bool
		text  string
	}{
		{"x := 0.8V * (1 + 30kΩ/6kΩ)\nRequire(x >= 4.8V, \"enough\")", true, "0 V"},       // 4.800000000000001
		{"x := 0.8V * (1 + 30kΩ/6kΩ)\nRequire(x <= 4.8V, \"not too much\")", true, "0 V"}, // the same from the other side
		{"x := 0.1V + 0.2V\nRequire(x <= 0.3V, \"sum\")", true, "0 V"},                    // 0.30000000000000004
		{"x := 0.1V + 0.2V\nRequire(x > 0.3V, \"more\")", false, "0 V"},
		{"x := 0.1V + 0.2V\nRequire(Within(x, 0V, 0.3V), \"within\")", true, "0 V"},
		{"x := 5V\nRequire(x <= 5V - 1pV, \"a picovolt is a difference\")", false, "−1 pV"},
		{"x := (0.1V + 0.2V) ± 0V\nRequire(x <= 0.3V, \"with a part\")", true, "0 V"},
		{"a := Range(1V, 2V, 3V)\nx := a*0.1 + a*0.2\nRequire(x <= a*0.3, \"in every case\")", true, "0 V"},
	} {
		_, results := compute(t, c.code)
		for _, it := range results[0].Items {
			q, ok := it.(*note.Requirement)
			if !ok {
				continue
			}
			if q.Holds != c.holds || q.Margin == nil || q.Margin.String() != c.text {
				t.Errorf("%s: holds %v, margin %v", c.code, q.Holds, q.Margin)
			}
			if q.Worst != nil && q.Worst.String() != c.text {
				t.Errorf("%s: worst %v", c.code, q.Worst)
			}
		}
	}
}
