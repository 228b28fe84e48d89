package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// The demo notes, and the tables of their values that were computed by hand.
var (
	demoNotes = filepath.Join("..", "..", "notebooks")
	handMade  = filepath.Join("..", "..", "testdata", "notes")
)

// demoNames lists the demo notes; one without a table by hand fails the test.
func demoNames(t *testing.T) []string {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(demoNotes, "*.ipynb"))
	if err != nil || len(found) < 2 {
		t.Fatalf("demo notes: %v, %v", found, err)
	}
	return found
}

// copyTo copies a note into a new folder, with what is beside it, and gives its
// new path.
func copyTo(t testing.TB, path string) string {
	t.Helper()
	files, err := os.ReadDir(filepath.Dir(path)) // with the notes that it may import
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	for _, f := range files {
		file := filepath.Join(filepath.Dir(path), f.Name())
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(folder, filepath.Base(file)), text, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return filepath.Join(folder, filepath.Base(path))
}

// demoJSON is what a program reads of run --json.
type demoJSON struct {
	Values map[string]struct {
		SI   *float64 `json:"si"`
		Unit string   `json:"unit"`
		Low  *float64 `json:"low_si"`
		High *float64 `json:"high_si"`
	} `json:"values"`
	Requirements []struct {
		Text   string   `json:"text"`
		Holds  bool     `json:"holds"`
		Margin *float64 `json:"margin_si"`
		Worst  *float64 `json:"worst_margin_si"`
	} `json:"requirements"`
	Errors []json.RawMessage `json:"errors"`
}

// Every value and margin of the demo notes is what physics gives: the tables
// in testdata/notes are computed with exact fractions by the scripts beside
// them, each line with its how.
func TestDemoNotesAgainstTablesByHand(t *testing.T) {
	t.Parallel()
	for _, path := range demoNames(t) {
		name := filepath.Base(path[:len(path)-len(".ipynb")])
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			out, err := exec.Command("ohmwright", "run", "--json", copyTo(t, path)).Output()
			if err != nil {
				t.Fatalf("run: %v\n%s", err, out)
			}
			var got demoJSON
			if err := json.Unmarshal(out, &got); err != nil {
				t.Fatal(err)
			}
			if len(got.Errors) > 0 {
				t.Errorf("errors: %s", got.Errors)
			}
			want := readTable(t, filepath.Join(handMade, name+".csv"))
			for i, r := range got.Requirements {
				key := fmt.Sprintf("requirement %d", i+1)
				w, ok := want[key]
				delete(want, key)
				switch {
				case !ok:
					t.Errorf("%s, %s: not in the table", key, r.Text)
				case r.Margin == nil:
					t.Errorf("%s, %s: has no margin, want %v %s", key, r.Text, w.si, w.unit)
				case !within(*r.Margin, w.si):
					t.Errorf("%s, %s: margin %v, want %v %s: %s", key, r.Text, *r.Margin, w.si, w.unit, w.how)
				case r.Holds != (w.si >= 0) || r.Holds != (w.low == nil || *w.low >= 0):
					t.Errorf("%s, %s: holds is %v, the margin is %v", key, r.Text, r.Holds, w.si)
				case !withinLimit(r.Worst, w.low):
					t.Errorf("%s, %s: worst margin %v, want %v", key, r.Text, show(r.Worst), show(w.low))
				}
			}
			for key, v := range got.Values {
				w, ok := want[key]
				delete(want, key)
				switch {
				case !ok && v.SI == nil:
					// A yes or no, such as a setting in a struct.
				case !ok:
					t.Errorf("%s: not in the table", key)
				case v.SI == nil:
					t.Errorf("%s: has no number, want %v %s", key, w.si, w.unit)
				case !within(*v.SI, w.si) || v.Unit != w.unit:
					t.Errorf("%s is %v %s, want %v %s: %s", key, *v.SI, v.Unit, w.si, w.unit, w.how)
				case !withinLimit(v.Low, w.low) || !withinLimit(v.High, w.high):
					t.Errorf("%s goes from %v to %v, want %v to %v", key, show(v.Low), show(v.High), show(w.low), show(w.high))
				}
			}
			for key := range want {
				t.Errorf("%s: in the table, not in the note", key)
			}
		})
	}
}

// splitName cuts what stands behind a name off it: "set.Output" into "set" and ".Output".
func splitName(key string) (name, field string) {
	if at := strings.IndexAny(key, ".["); at >= 0 {
		return key[:at], key[at:]
	}
	return key, ""
}

// A note that is imported gives the same values, limits and all: each name of
// each demo note, taken over by another note, is what the table by hand says.
func TestDemoNotesImported(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("it computes all demo notes")
	}
	for _, path := range demoNames(t) {
		name := strings.TrimSuffix(filepath.Base(path), ".ipynb")
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			want := readTable(t, filepath.Join(handMade, name+".csv"))
			maps.DeleteFunc(want, func(key string, _ tableLine) bool { return strings.HasPrefix(key, "rail.") }) // of its block, whose names stay in the note
			cells := []string{"import demo \"" + name + ".ipynb\""}
			taken := map[string]string{}
			for key := range want {
				if strings.HasPrefix(key, "requirement ") {
					continue
				}
				base, _ := splitName(key)
				if taken[base] == "" {
					taken[base] = fmt.Sprintf("taken%d", len(taken))
					cells = append(cells, taken[base]+" := demo."+base)
				}
			}
			note := filepath.Join(filepath.Dir(copyTo(t, path)), "zz-import.ipynb")
			if err := os.WriteFile(note, notebookOf(cells...), 0o666); err != nil {
				t.Fatal(err)
			}
			out, err := exec.Command("ohmwright", "run", "--json", note).Output()
			if err != nil {
				t.Fatalf("run: %v\n%s", err, out)
			}
			var got demoJSON
			if err := json.Unmarshal(out, &got); err != nil || len(got.Errors) > 0 {
				t.Fatalf("%v %s", err, got.Errors)
			}
			held := 0
			for key, w := range want {
				if strings.HasPrefix(key, "requirement ") {
					continue
				}
				base, field := splitName(key)
				v, ok := got.Values[taken[base]+field]
				switch {
				case !ok || v.SI == nil:
					t.Errorf("%s: has no number", key)
				case !within(*v.SI, w.si) || v.Unit != w.unit:
					t.Errorf("%s is %v %s, want %v %s: %s", key, *v.SI, v.Unit, w.si, w.unit, w.how)
				case !withinLimit(v.Low, w.low) || !withinLimit(v.High, w.high):
					t.Errorf("%s goes from %v to %v, want %v to %v", key, show(v.Low), show(v.High), show(w.low), show(w.high))
				default:
					held++
				}
			}
			t.Logf("%d values", held)
		})
	}
}

// within holds a number against the table: 1e-12 of it, some thousand
// roundings of a float64.
func within(got, want float64) bool { return math.Abs(got-want) <= 1e-12*math.Abs(want) }

// withinLimit holds a limit against the table; an exact value has none.
func withinLimit(got, want *float64) bool {
	if got == nil || want == nil {
		return got == want
	}
	return within(*got, *want)
}

func show(x *float64) string {
	if x == nil {
		return "none"
	}
	return strconv.FormatFloat(*x, 'g', -1, 64)
}

type tableLine struct {
	si        float64
	unit, how string
	low, high *float64 // over all corners; nil for an exact value
}

func readTable(t *testing.T, path string) map[string]tableLine {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	lines := map[string]tableLine{}
	for i, row := range rows {
		if i == 0 {
			continue
		}
		si, err := strconv.ParseFloat(row[1], 64)
		if _, twice := lines[row[0]]; err != nil || twice || row[3] == "" {
			t.Fatalf("%s, line %d: %v (%v)", path, i+1, row, err)
		}
		line := tableLine{si: si, unit: row[2], how: row[3]}
		for i, limit := range []**float64{&line.low, &line.high} {
			if x, err := strconv.ParseFloat(row[4+i], 64); err == nil {
				*limit = &x
			} else if row[4+i] != "" {
				t.Fatalf("%s, line %d: %v", path, i+1, err)
			}
		}
		lines[row[0]] = line
	}
	return lines
}

// The tables are what their scripts print, where there is a Python to ask.
func TestTablesByHandAreWhatTheirScriptsPrint(t *testing.T) {
	t.Parallel()
	python, err := exec.LookPath("python3")
	if err != nil {
		t.Skip("no python3 on this machine")
	}
	for _, path := range demoNames(t) {
		name := filepath.Base(path[:len(path)-len(".ipynb")])
		c := exec.Command(python, "-B", name+".py")
		c.Dir = handMade
		c.Env = append(os.Environ(), "PYTHONIOENCODING=utf-8")
		got, err := c.Output()
		if err != nil {
			t.Errorf("%s.py: %v", name, err)
			continue
		}
		want, err := os.ReadFile(filepath.Join(handMade, name+".csv"))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, want) {
			t.Errorf("%s.csv is not what %s.py prints: run it again", name, name)
		}
	}
}

// Running the committed demo notes changes nothing in the checkout.
func TestDemoNotesAreUpToDate(t *testing.T) {
	t.Parallel()
	for _, path := range demoNames(t) {
		t.Run(filepath.Base(path), func(t *testing.T) {
			t.Parallel()
			before, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			to := copyTo(t, path)
			if out, err := exec.Command("ohmwright", "run", to).CombinedOutput(); err != nil {
				t.Fatalf("run: %v\n%s", err, out)
			}
			after, err := os.ReadFile(to)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(before, after) {
				i := 0
				for i < min(len(before), len(after)) && before[i] == after[i] {
					i++
				}
				t.Errorf("run changes the committed note in line %d: store its results with ohmwright run notebooks", 1+bytes.Count(after[:i], []byte("\n")))
			}
			if out, err := exec.Command("ohmwright", "verify", to).CombinedOutput(); err != nil {
				t.Errorf("verify after run: %v\n%s", err, out)
			}
		})
	}
}
