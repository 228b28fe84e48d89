package cell

import "testing"

// TestCheckExpression holds what can stand behind the = of --set.
func TestCheckExpression(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]string{
		"9V":                        "",
		"-40°C":                     "",
		"2*Vin + 1V":                "",
		"10kΩ ± 1%":                 "",
		"Sqrt(x)":                   "",
		"func() int { return 1 }()": "",
		"":                          "this is no expression: write a value as in a cell, 9V",
		"5V 6V":                     "this is no expression: write a value as in a cell, 9V",
		"1V; x = 2V":                "this is no expression: write a value as in a cell, 9V",
		"1V)\n_ = (2V":              "this is no expression: write a value as in a cell, 9V",
		"x = 3":                     "this is no expression: write a value as in a cell, 9V",
		"3, 4":                      "this is no expression: write a value as in a cell, 9V",
		"10k":                       "10k has a prefix without a unit: write 10kΩ (10kohm), 10kHz or 10kV",
		"a*b ± 1%":                  "this is no expression: write a value as in a cell, 9V",
		"x^2":                       "^ is not a power in Go, it flips bits: write Pow(x, 2) for the power, or the mask in hexadecimal for exclusive or",
	} {
		got := ""
		if err := CheckExpression(text); err != nil {
			got = err.Error()
		}
		if got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
