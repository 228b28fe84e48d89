package main

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// Each mistake is told at its place in the text that the user typed, with
// what is wrong (says) and what to write instead (mend), and never in words of
// the program's insides. All cells stand in one note: none keeps another from
// being told.
func TestMessages(t *testing.T) {
	t.Parallel()
	tests := []struct {
		code         string
		line, column int // 0: anywhere
		says, mend   string
	}{
		// Dimensions.
		{"_ = 3.3V + 20mA", 1, 10, "cannot add 3.3 V (voltage) and 20 mA (current)", ""},
		{"_ = 5V - 3Ω", 1, 8, "cannot subtract 3 Ω (resistance) from 5 V (voltage)", ""},
		{"_ = 3V < 2A", 1, 8, "cannot compare 3 V (voltage) with 2 A (current)", ""},
		{"_ = max(5V, 3A)", 1, 0, "cannot compare 5 V (voltage) with 3 A (current)", ""},
		{"_ = Range(1V, 2A, 3V)", 1, 0, "cannot compare 1 V (voltage) with 2 A (current)", ""},
		{"_ = Ln(5V)", 1, 0, "cannot take Ln of 5 V (voltage)", "Ln(x/1V)"},
		{"_ = Sqrt(-4V*1V)", 1, 0, "negative", ""},
		{"_ = In(5V, \"mA\")", 1, 0, "cannot show 5 V (voltage) in mA", ""},
		{"_ = float64(5V)", 1, 0, "cannot take 5 V (voltage) as a plain number", "x/1V"},
		{"_ = int(5V)", 1, 0, "drop the unit", "math.Round"},
		// Temperatures and levels.
		{"_ = 25°C + 30°C", 1, 10, "cannot add 25 °C (temperature on the scale) and 30 °C", "difference in K"},
		{"_ = 2 * 25°C", 1, 0, "25 °C (temperature on the scale)", "Absolute(T)"},
		{"_ = 14dBm + 14dBm", 1, 11, "levels do not add", "PowerSum"},
		{"_ = 25°C ± 5%", 1, 0, "percentage of a point on the scale", "25°C ± 5K"},
		{"_ = -40°C - 300K", 1, 0, "below absolute zero", ""},
		// Literals.
		{"_ = 4.7kOhmz", 1, 5, "unknown unit kOhmz", "did you mean kΩ"},
		{"_ = 10k", 1, 5, "10k has a prefix without a unit", "10kΩ"},
		{"_ = 5µµV", 1, 5, "unknown unit µµV", "did you mean µV?"},
		{"_ = 1e400V", 1, 5, "1e400V: the number is too large", ""},
		{"_ = 5V + 3V ± 1%", 1, 13, "± binds to the single value at its left", "(a + b) ± 1 %"},
		// What Go would do without a word.
		{"_ = 1/2*5V", 1, 0, "1/2 is a division of whole numbers", "write 0.5"},
		{"a1 := 5V\n_ = a1^2", 2, 0, "^ is not a power in Go", "Pow(a1, 2)"},
		{"_ = 5V / 0", 1, 8, "the divisor is zero", ""},
		{"_ = 5V | 3V", 1, 0, "quantities have no operator |", ""},
		{"type Q Quantity\n_ = Q(5V)", 0, 0, "a type cannot be made from Quantity", "use Quantity itself"},
		{"_ = complex(1, 2)", 1, 5, "complex", ""},
		{"_ = &5V", 1, 5, "5V", ""},
		// Names.
		{"_ = E97", 1, 5, "E97 is not defined", "did you mean E96?"},
		{"_ = dividr.Plain(5V, 1Ω, 1Ω)", 1, 5, "dividr is not defined", "did you mean divider?"},
		{"_ = divider.Nope(5V)", 1, 13, "package divider has no Nope", ""},
		{"fmt := 3", 1, 1, "fmt is a package", "choose another name"},
		{"a2 := 5V\na2 := 6V", 2, 1, "a2 is defined twice in this cell", "a2 = …"},
		// Preferred values and lib.
		{"_ = Nearest(E96, -10kΩ)", 1, 0, "−10 kΩ", "check the sign"},
		{"_ = Nearest(E24, 0Ω)", 1, 0, "must be above zero", ""},
		{"_ = AtLeast(E24, 10kΩ ± 1%)", 1, 0, "spread", "High(x)"},
		{"_ = Range(5V, 3V, 2V)", 1, 0, "out of order: 5 V, 3 V, 2 V", "smallest first"},
		{"_ = thermal.LargestPower(85°C, 25°C, 40K/W)", 1, 0, "limit is 25 °C; it must be above ambient, 85 °C", "lower the ambient temperature"},
		// Requirements.
		{"a3 := 3V > 2V\nRequire(a3, \"stored\")", 2, 9, "Require needs the comparison itself", "Require(Tj <= 125°C, …)"},
		{"Require(3V > 2V && 1V < 2V, \"both\")", 1, 0, "Require takes one comparison", "one Require for each side"},
		{"Require(3V > 2V)", 1, 0, "not enough arguments in call to Require", "say what must hold"},
		// Go.
		{"_ = \"a\" + 5V", 1, 0, "mismatched types", ""},
		{"_ = []Quantity{1V, \"a\"}", 1, 20, "cannot use \"a\"", ""},
		{"var a4 int = 5V", 1, 14, "5V", "int"},
		{"func a5() {", 1, 0, "not closed", ""},
		{"_ = }", 1, 5, "unexpected }", ""},
		{"return 5V", 1, 1, "return outside a function", ""},
		{"import \"os\"", 1, 8, "package os is not available in cells", "cells can use"},
		{"go func() {}()", 1, 1, "go is not available in cells", "call the function directly"},
		{"a6 := make(chan int)", 1, 0, "channels are not available in cells", "use a slice"},
		{"_ = [3]int{1, 2, 3}[5]", 1, 21, "index 5 out of bounds", ""},
	}
	var codes []string
	for _, test := range tests {
		codes = append(codes, test.code)
	}
	codes = append(codes, "last := 5V")
	path := filepath.Join(t.TempDir(), "wrong.ipynb")
	if err := os.WriteFile(path, notebookOf(codes...), 0o666); err != nil {
		t.Fatal(err)
	}
	c := exec.Command("ohmwright", "run", "--json", path)
	var talk strings.Builder
	c.Stderr = &talk
	out, err := c.Output()
	if c.ProcessState.ExitCode() != 1 {
		t.Fatalf("run: %v, want status 1\n%s", err, talk.String())
	}
	var got struct {
		Values map[string]any
		Errors []struct {
			Cell         string
			Line, Column int
			Message      string
		}
	}
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatal(err)
	}
	if got.Values["last"] == nil {
		t.Error("the cell without a mistake was not computed")
	}
	byCell := map[string]int{}
	for i, e := range got.Errors {
		if _, ok := byCell[e.Cell]; !ok {
			byCell[e.Cell] = i
		}
	}
	for i, test := range tests {
		at, ok := byCell[fmt.Sprintf("cell %d", i+1)]
		if !ok {
			t.Errorf("%q: no error", test.code)
			continue
		}
		e := got.Errors[at]
		if test.line != 0 && e.Line != test.line || test.column != 0 && e.Column != test.column {
			t.Errorf("%q: told at line %d, column %d, want %d, %d", test.code, e.Line, e.Column, test.line, test.column)
		}
		if !strings.Contains(e.Message, test.says) || !strings.Contains(e.Message, test.mend) {
			t.Errorf("%q: %q, want %q and %q", test.code, e.Message, test.says, test.mend)
		}
		if !strings.Contains(talk.String(), fmt.Sprintf("cell %d, line %d", i+1, e.Line)) {
			t.Errorf("%q: standard error does not tell it", test.code)
		}
	}
	stored, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"standard output": string(out), "standard error": talk.String(), "the note": string(stored)} {
		if found := inside(text); found != "" {
			t.Errorf("%s shows insides, %s", name, found)
		}
	}
}
