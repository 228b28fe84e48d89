package note

import (
	"encoding/csv"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// The limits of a share against an exact inversion of the binomial sum, made
// in Python's integers (testdata/spread/exact.py).
func TestConfidenceAgainstTheBinomialSum(t *testing.T) {
	t.Parallel()
	text, err := os.ReadFile("../../testdata/spread/exact.csv")
	if err != nil {
		t.Fatal(err)
	}
	r := csv.NewReader(strings.NewReader(string(text)))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	form := regexp.MustCompile(`^(\d+) of (\d+), 95 %, two-sided (low|high)$`)
	seen := 0
	for _, row := range rows {
		m := form.FindStringSubmatch(row[1])
		if row[0] != "clopper-pearson" || m == nil {
			continue
		}
		seen++
		k, _ := strconv.Atoi(m[1])
		n, _ := strconv.Atoi(m[2])
		want, err := strconv.ParseFloat(row[2], 64)
		if err != nil {
			t.Fatal(err)
		}
		low, high := confidence(k, n)
		got := low
		if m[3] == "high" {
			got = high
		}
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: %v, want %v", row[1], got, want)
		}
	}
	if seen < 20 {
		t.Errorf("only %d lines of the table were compared", seen)
	}
}
