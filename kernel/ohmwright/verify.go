package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"math"
	"os"
	"slices"
	"sort"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"ohmwright/kernel/drawing"
	"ohmwright/kernel/note"
	"ohmwright/kernel/notebook"
)

// defaultTolerance is the largest relative difference that counts as none.
const defaultTolerance = 1e-9

func verifyCommand() *cobra.Command {
	var s settings
	tolerance, list := defaultTolerance, ""
	c := &cobra.Command{
		Use:   "verify NOTE…",
		Short: "compute notes afresh and hold the stored results and the requirements against that",
		Long: `verify computes each note as run does and compares what the file has stored: numbers
within --tolerance (relative), everything else exactly. A marker in the text such as
{Vout} must name a value of the note. It writes nothing. Exit status 1 and a table on
any difference, failed requirement, marker without a value, or error.

With --values it holds the parts of the notes against a list that a drawing tool
exported: references and values, as people write them, 4k7, 0.1u, 10uF 25V, DNP.`,
		Args:              needNotes,
		ValidArgsFunction: completeNotes,
		RunE: func(c *cobra.Command, args []string) error {
			if !(tolerance >= 0) {
				return fmt.Errorf("--tolerance %v: write a number from 0 up, such as 1e-9", tolerance)
			}
			return verify(c.Context(), c.OutOrStdout(), c.ErrOrStderr(), args, s, tolerance, list)
		},
	}
	s.flags(c)
	c.Flags().BoolVar(&s.json, "json", false, "print one line of JSON for each note")
	c.Flags().Float64Var(&tolerance, "tolerance", tolerance, "largest relative difference of numbers that counts as none")
	c.Flags().StringVar(&list, "values", "", "hold this list of parts, a `FILE.csv` from a drawing tool, against the notes")
	return c
}

// difference is one thing in which the file and the computation differ.
type difference struct {
	Cell   string `json:"cell"`
	What   string `json:"what"`
	Stored string `json:"stored"`
	Now    string `json:"now"`
}

func verify(ctx context.Context, stdout, talk io.Writer, args []string, s settings, tolerance float64, list string) error {
	var lines []drawing.Line
	if list != "" {
		text, err := os.ReadFile(list)
		if err == nil {
			lines, err = drawing.Read(text)
		}
		if err != nil {
			return fmt.Errorf("--values %s: %w", list, withoutPath(err))
		}
	}
	notes, broken, err := open(ctx, talk, args, s, nil)
	if err != nil {
		return err
	}
	parts, twice := partsOf(notes), twiceIn(notes)
	failed := broken > 0 || len(twice) > 0
	for _, n := range notes {
		diffs, err := n.differences(tolerance)
		if err != nil {
			return err
		}
		missed, waived := n.missed()
		count, errors := 0, 0
		for _, r := range n.results {
			errors += len(r.Errors)
			count += len(note.NewRecord(r).Requirements)
		}
		markers := n.unknownMarkers()
		failed = failed || len(diffs)+len(markers) > 0 || n.failed()
		if s.json {
			enc := json.NewEncoder(stdout)
			enc.SetEscapeHTML(false)
			if diffs == nil {
				diffs = []difference{}
			}
			if err := enc.Encode(map[string]any{"note": n.path, "differences": diffs, "requirements": count, "missed": len(missed), "waived": len(waived), "errors": errors, "markers": markers}); err != nil {
				return err
			}
			continue
		}
		if len(diffs) == 0 && len(missed) == 0 && len(markers) == 0 && errors == 0 {
			holding := countOf(count-len(waived), "requirement holds", "requirements hold")
			if count == 0 {
				holding = "no requirement is stated"
			}
			fmt.Fprintf(stdout, "%s: the stored results hold, %s\n", n.path, holding)
			tellWaived(stdout, waived)
			continue
		}
		fmt.Fprintln(stdout, n.path)
		if k := len(diffs); k > 3 && !slices.ContainsFunc(diffs, func(d difference) bool { return d.What != diffs[0].What || d.Stored != "nothing" }) {
			diffs[0].Cell += fmt.Sprintf(" and %d more", k-1) // a note that was never run: the same of each cell
			diffs = diffs[:1]
		}
		for _, d := range diffs {
			fmt.Fprintf(stdout, "  differs  %s, %s: stored %s, now %s\n", d.Cell, d.What, d.Stored, d.Now)
		}
		if failing := n.withoutResult(); len(failing) > 0 {
			fmt.Fprintf(stdout, "  failed   %s: no result\n", strings.Join(failing, ", "))
		}
		for _, q := range missed {
			fmt.Fprintf(stdout, "  missed   %s\n", q)
		}
		tellWaived(stdout, waived)
		for _, m := range markers {
			fmt.Fprintf(stdout, "  unknown  %s, {%s}: %s\n", m.Cell, m.Marker, m.text())
		}
		tell(talk, n.errors())
	}
	if err := tellTwice(stdout, s, twice); err != nil {
		return err
	}
	if list != "" {
		different, err := tellList(stdout, s, list, lines, notes, parts)
		if err != nil {
			return err
		}
		failed = failed || different
	}
	if failed {
		return failures{}
	}
	return nil
}

// withoutResult names the cells that have an error, or wait for one that has.
func (n *noteFile) withoutResult() (labels []string) {
	for _, r := range n.results {
		if len(r.Errors) > 0 {
			labels = append(labels, r.Label)
		}
	}
	return labels
}

// tellWaived lists what does not hold and is waived.
func tellWaived(stdout io.Writer, waived []string) {
	for _, w := range waived {
		fmt.Fprintf(stdout, "  waived   %s\n", w)
	}
}

func countOf(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// differences compares the stored outputs of each cell with fresh ones.
func (n *noteFile) differences(tolerance float64) ([]difference, error) {
	var diffs []difference
	for i, c := range n.cells {
		r := n.results[i]
		fresh, err := outputs(r, c.Source())
		if err != nil {
			return nil, err
		}
		stored := slices.DeleteFunc(c.Outputs(), placeholder)
		was, ok1 := recordOf(stored)
		now, ok2 := recordOf(fresh)
		switch {
		case len(stored) == 0 && len(fresh) == 0:
		case len(stored) == 0:
			diffs = append(diffs, difference{r.Label, "results", "nothing", "results: run the note once"})
		case !ok1 && ok2:
			diffs = append(diffs, difference{r.Label, "results", "no record of values", "values: run the note once"})
		default:
			same, found := compareRecords(r.Label, was, now, tolerance)
			diffs = append(diffs, found...)
			// Where every number is the same to the bit, so must the text be.
			if same && len(found) == 0 {
				diffs = append(diffs, compareTexts(r.Label, stored, fresh)...)
			}
		}
	}
	return diffs, nil
}

// recordOf finds the record among the outputs of a cell.
func recordOf(list []notebook.Output) (rec note.Record, ok bool) {
	for _, o := range list {
		var meta struct {
			Record *note.Record `json:"ohmwright"`
		}
		if m := o.Metadata(); len(m) > 0 && json.Unmarshal(m, &meta) == nil && meta.Record != nil {
			return *meta.Record, true
		}
	}
	return rec, false
}

// compareRecords lists differences; same is true where all numbers are equal to the bit.
func compareRecords(cell string, was, now note.Record, tolerance float64) (same bool, diffs []difference) {
	same = true
	names := map[string]bool{}
	for k := range was.Values {
		names[k] = true
	}
	for k := range now.Values {
		names[k] = true
	}
	var sorted []string
	for k := range names {
		sorted = append(sorted, k)
	}
	sort.Strings(sorted)
	add := func(what, stored, fresh string) { diffs = append(diffs, difference{cell, what, stored, fresh}) }
	number := func(what string, a, b *float64, textA, textB string) bool {
		switch {
		case a == nil && b == nil:
			return true
		case a == nil || b == nil || !near(*a, *b, tolerance):
			add(what, textA, textB)
			return false
		case *a != *b:
			same = false
		}
		return true
	}
	for _, f := range slices.Sorted(maps.Keys(now.Files)) {
		if a, b := was.Files[f], now.Files[f]; a != b && (a != "" || len(was.Values)+len(was.Requirements) > 0) {
			add("the file "+f, hashText(a), hashText(b))
		}
	}
	for _, k := range sorted {
		a, ok1 := was.Values[k]
		b, ok2 := now.Values[k]
		switch {
		case !ok1:
			add(k, "nothing", b.Text)
			continue
		case !ok2:
			add(k, a.Text, "nothing")
			continue
		}
		textA, textB := a.Text, b.Text
		if textA == textB { // less apart than its digits show
			textA, textB = full(a), full(b)
		}
		if !number(k, a.SI, b.SI, textA, textB) {
			continue
		}
		for _, f := range []struct{ what, a, b string }{
			{"unit of " + k, a.Unit, b.Unit}, {"description of " + k, a.Description, b.Description},
			{"source of " + k, a.Source, b.Source}, {"reason of " + k, a.Reason, b.Reason},
		} {
			if f.a != f.b {
				add(f.what, quote(f.a), quote(f.b))
			}
		}
		if a.SI == nil && a.Text != b.Text {
			add(k, quote(a.Text), quote(b.Text))
		}
		number("low of "+k, a.LowSI, b.LowSI, inUnit(a.LowSI, a.Unit), inUnit(b.LowSI, b.Unit))
		number("high of "+k, a.HighSI, b.HighSI, inUnit(a.HighSI, a.Unit), inUnit(b.HighSI, b.Unit))
		number("standard deviation of "+k, a.StdSI, b.StdSI, siText(a.StdSI), siText(b.StdSI))
		if !slices.Equal(a.Sources, b.Sources) {
			add("what spreads "+k, quote(strings.Join(a.Sources, ", ")), quote(strings.Join(b.Sources, ", ")))
		}
	}
	for i := 0; i < max(len(was.Requirements), len(now.Requirements)); i++ {
		switch {
		case i >= len(was.Requirements):
			add("requirement", "nothing", quote(now.Requirements[i].Text))
		case i >= len(now.Requirements):
			add("requirement", quote(was.Requirements[i].Text), "nothing")
		default:
			a, b := was.Requirements[i], now.Requirements[i]
			if a.Text != b.Text {
				add("requirement", quote(a.Text), quote(b.Text))
			} else if a.Holds != b.Holds {
				add("requirement "+quote(a.Text), verdict(a.Holds), verdict(b.Holds))
			} else {
				margin := func(what string, x, y *float64, textX, textY string) bool {
					was, is := marginText(x, textX, a.Unit), marginText(y, textY, b.Unit)
					if was == is { // less apart than its digits show
						was, is = marginText(x, "", a.Unit), marginText(y, "", b.Unit)
					}
					return number(what+" of "+quote(a.Text), x, y, was, is)
				}
				margin("margin", a.MarginSI, b.MarginSI, a.Margin, b.Margin)
				worst := margin("worst margin", a.WorstMarginSI, b.WorstMarginSI, a.WorstMargin, b.WorstMargin)
				if worst && a.WorstCase != b.WorstCase {
					add("worst case of "+quote(a.Text), quote(a.WorstCase), quote(b.WorstCase))
				}
				walk(quote(a.Text), sideOf(a), sideOf(b), tolerance, &same, add)
				if x, y := boards(a.Yield), boards(b.Yield); x != y {
					add("boards that meet "+quote(a.Text), x, y)
				}
			}
		}
	}
	walk("the board", was.BoardRecord, now.BoardRecord, tolerance, &same, add)
	return same, diffs
}

func hashText(hash string) string {
	if hash == "" {
		return "nothing"
	}
	return "sha256 " + hash
}

// boards is a yield in words.
func boards(y *note.YieldRecord) string {
	if y == nil {
		return "nothing"
	}
	return fmt.Sprintf("%d of %d, %v … %v of all, parts %s", y.Passed, y.Boards, y.Low, y.High, y.Assumed)
}

func verdict(holds bool) string {
	if holds {
		return "holds"
	}
	return "is missed"
}

func quote(s string) string {
	if s == "" {
		return "nothing"
	}
	return "“" + s + "”"
}

func siText(x *float64) string {
	if x == nil {
		return "nothing"
	}
	return strconv.FormatFloat(*x, 'g', -1, 64)
}

func full(v note.ValueRecord) string {
	if v.SI == nil {
		return v.Text
	}
	return inUnit(v.SI, v.Unit)
}

// inUnit is a number in all its digits with its coherent unit.
func inUnit(x *float64, unit string) string {
	if x == nil {
		return "nothing"
	}
	return strings.TrimSpace(siText(x) + " " + strings.TrimPrefix(unit, "1"))
}

// marginText is a margin as people write it, or in all its digits where a
// record has no such text.
func marginText(x *float64, text, unit string) string {
	if x == nil || text == "" {
		return inUnit(x, unit)
	}
	return text
}

func near(a, b, tolerance float64) bool {
	return a == b || math.Abs(a-b) <= tolerance*math.Max(math.Abs(a), math.Abs(b))
}

// compareTexts compares everything but the records.
func compareTexts(cell string, stored, fresh []notebook.Output) []difference {
	if len(stored) == len(fresh) {
		equal := true
		for i := range stored {
			equal = equal && (stored[i].Equal(fresh[i]) || sameResult(stored[i], fresh[i]))
		}
		if equal {
			return nil
		}
	}
	a, b := firstDifference(plainText(stored), plainText(fresh))
	if a == b {
		a, b = "another form of the same text", "results: run the note once"
	}
	return []difference{{cell, "what the cell shows", a, b}}
}

// placeholder reports whether an output is the empty display that the kernel
// puts where another cell may make something appear.
func placeholder(o notebook.Output) bool {
	data := o.Data()
	return o.Type() == "display_data" && len(data) == 1 && data["text/plain"] == ""
}

// sameResult reports whether two results show the same: their records were
// compared, and a front end counts executions, for the result and in the record.
func sameResult(a, b notebook.Output) bool {
	return a.Type() == b.Type() && len(a.Data()) > 0 && maps.Equal(a.Data(), b.Data())
}

func plainText(list []notebook.Output) string {
	var b strings.Builder
	for _, o := range list {
		b.WriteString(o.Data()["text/plain"])
		_, printed := o.Text()
		b.WriteString(printed)
		if name, value, _ := o.Failure(); name != "" {
			b.WriteString(value)
		}
		b.WriteString("\n")
	}
	return b.String()
}

// firstDifference gives the first lines in which two texts differ.
func firstDifference(a, b string) (string, string) {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := 0; i < max(len(x), len(y)); i++ {
		p, q := "", ""
		if i < len(x) {
			p = strings.TrimSpace(x[i])
		}
		if i < len(y) {
			q = strings.TrimSpace(y[i])
		}
		if p != q {
			return quote(p), quote(q)
		}
	}
	return "", ""
}
