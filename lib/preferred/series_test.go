package preferred

import (
	"math"
	"math/big"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// Every member of every series against a second list, digit for digit.
func TestMembersAgainstSecondList(t *testing.T) {
	t.Parallel()
	want := secondList(t)
	if len(want) != 7 || len(decades) != 7 {
		t.Fatalf("%d series in the second list, %d in the table, want 7 and 7", len(want), len(decades))
	}
	for name, list := range want {
		var got []string
		for _, m := range decades[name] {
			got = append(got, m.text)
		}
		if !slices.Equal(got, list) {
			t.Errorf("%s:\ngot  %v\nwant %v", name, got, list)
		}
	}
}

// The sum of a decade, as the standard's lists give it when added up by hand
// (IEC 60063, from memory).
func TestSumOfDecade(t *testing.T) {
	t.Parallel()
	for name, want := range map[string]string{
		"E3": "7.90", "E6": "19.50", "E12": "42.90", "E24": "90.10",
		"E48": "183.13", "E96": "370.70", "E192": "745.99",
	} {
		sum := new(big.Rat)
		for _, m := range decades[name] {
			r, ok := new(big.Rat).SetString(m.text)
			if !ok {
				t.Fatal(m.text)
			}
			sum.Add(sum, r)
		}
		if got := sum.FloatString(2); got != want {
			t.Errorf("sum of %s is %s, want %s", name, got, want)
		}
	}
}

// E48, E96 and E192 are roots of ten to three figures, but for one member;
// E24 has eight historical values (IEC 60063, from memory).
func TestRootsOfTen(t *testing.T) {
	t.Parallel()
	exceptions := map[string]map[string]string{
		"E24":  {"2.7": "2.6", "3.0": "2.9", "3.3": "3.2", "3.6": "3.5", "3.9": "3.8", "4.3": "4.2", "4.7": "4.6", "8.2": "8.3"},
		"E48":  {},
		"E96":  {},
		"E192": {"9.20": "9.19"},
	}
	for name, except := range exceptions {
		list := decades[name]
		decimals := len(list[0].text) - 2
		var found int
		for i, m := range list {
			root := strconv.FormatFloat(math.Pow(10, float64(i)/float64(len(list))), 'f', decimals, 64)
			if root == m.text {
				continue
			}
			found++
			if except[m.text] != root {
				t.Errorf("%s member %d is %s, the root of ten is %s", name, i+1, m.text, root)
			}
		}
		if found != len(except) {
			t.Errorf("%s has %d members off the root, want %d", name, found, len(except))
		}
	}
}

// Each series of two figures holds every second or fourth member of E24,
// E48 and E96 every fourth and second of E192 (the standard's construction).
func TestSeriesAreNested(t *testing.T) {
	t.Parallel()
	for _, pair := range [][2]string{{"E3", "E6"}, {"E6", "E12"}, {"E12", "E24"}, {"E48", "E96"}, {"E96", "E192"}} {
		for i, m := range decades[pair[0]] {
			if fine := decades[pair[1]][2*i]; fine != m {
				t.Errorf("member %d of %s is %s, of %s %s", i+1, pair[0], m.text, pair[1], fine.text)
			}
		}
	}
}

func TestSeriesFileRefusals(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ text, want string }{
		{"1.0 2.2", "series.txt:1: members before the first series line"},
		{"series E3", `series.txt:1: a series line is "series E3", want: series NAME COUNT`},
		{"series E3 x", `series.txt:1: the count is "x", want a whole number above 0`},
		{"series E3 1\n1.0\nseries E3 1", "series.txt:3: series E3 is there twice"},
		{"series E3 3\n1.0 2.2", "series.txt: E3 has 2 members, its count says 3"},
		{"series E3 2\n1.0 22", `series.txt:2: member "22" of E3 is no number from 1 on and below 10`},
		{"series E3 2\n2.2 1.0", "series.txt:2: member 1.0 of E3 does not rise"},
		{"series E3 1\n2.2", "series.txt: E3 starts with 2.2, want 1"},
	} {
		_, err := readDecades(test.text)
		if err == nil || err.Error() != test.want {
			t.Errorf("%q:\ngot  %v\nwant %s", test.text, err, test.want)
		}
	}
	if !strings.Contains(seriesText, "Source: IEC 60063") {
		t.Error("series.txt does not name its source")
	}
}

func TestSeriesIsAPlainValue(t *testing.T) {
	t.Parallel()
	if (Series{Name: "E24"}) != E24 {
		t.Error("a series is not its name")
	}
	a, err := Stock(q("1 kΩ"), q("2 kΩ"))
	if err != nil {
		t.Fatal(err)
	}
	b, err := Stock(q("2 kΩ"), q("1 kΩ"), q("1 kΩ"))
	if err != nil {
		t.Fatal(err)
	}
	if a != b {
		t.Error("two stocks with the same values differ")
	}
	if E96.String() != "E96" || a.String() != "stock" {
		t.Errorf("names are %v and %v", E96, a)
	}
}
