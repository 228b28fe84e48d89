package preferred

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	_ "ohmwright/lib/internal/expect" // the gate draws the same cases
	"ohmwright/units"
)

var q = units.MustParse

// secondList reads the second list of preferred numbers, which was written
// apart from series.txt.
func secondList(t testing.TB) map[string][]string {
	t.Helper()
	f, err := os.Open("../../testdata/lib/e_series.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	list := map[string][]string{}
	for _, row := range rows[1:] {
		list[row[0]] = append(list[row[0]], row[1])
	}
	return list
}

// listed returns the members of a series from the second list in the decades
// from 10^low to 10^high, as numbers.
func listed(t testing.TB, series string, low, high int) []float64 {
	t.Helper()
	var out []float64
	for e := low; e <= high; e++ {
		for _, text := range secondList(t)[series] {
			v, err := strconv.ParseFloat(text+"e"+strconv.Itoa(e), 64)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, v)
		}
	}
	return out
}

// equalWithin reports whether a and b are the same but for tolerance·|b|.
func equalWithin(a, b, tolerance float64) bool {
	return a == b || math.Abs(a-b) <= tolerance*math.Abs(b)
}

// message returns what f returns or panics with.
func message(f func() error) (text string) {
	defer func() {
		if r := recover(); r != nil {
			if e, ok := r.(*units.Error); ok {
				text = "panic: " + e.Error()
				return
			}
			panic(r)
		}
	}()
	if err := f(); err != nil {
		return err.Error()
	}
	return ""
}
