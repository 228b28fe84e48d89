package notebook_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"ohmwright/kernel/notebook"
)

// made is a notebook with what was put into it, kept apart from it.
type made struct {
	*notebook.Notebook
	want []madeCell
}

type madeCell struct {
	Type, Source string
	Count        *int
	Data         []map[string]string
	Printed      []string
}

// contents reads back from a notebook what a made one keeps.
func contents(n *notebook.Notebook) []madeCell {
	var out []madeCell
	for _, c := range n.Cells() {
		m := madeCell{Type: c.Type(), Source: c.Source(), Count: c.ExecutionCount()}
		for _, o := range c.Outputs() {
			m.Data = append(m.Data, o.Data())
			_, printed := o.Text()
			m.Printed = append(m.Printed, printed)
		}
		out = append(out, m)
	}
	return out
}

// texts draws text with everything that line cutting and escaping must mind.
func texts() *rapid.Generator[string] {
	piece := rapid.SampledFrom([]string{
		"a", "Vin := 24V", "µ", "Ω", "😀", "\n", "\r\n", "\r", "\v", "\f", "\x1c", "\u0085", "\u2028", "\u2029",
		`"`, `\`, "/", "<b>&", "\t", "\x00", "\x7f", "\u200b", "\ufeff", " ", "\ufffd",
	})
	return rapid.Map(rapid.SliceOfN(piece, 0, 12), func(p []string) string { return strings.Join(p, "") })
}

var mimes = []string{"text/plain", "text/html", "text/latex", "image/png", "image/svg+xml", "application/javascript", "application/x-tex"}

// values draws what json.Marshal writes.
func values(depth int) *rapid.Generator[any] {
	simple := rapid.OneOf(
		rapid.Map(texts(), func(s string) any { return s }),
		rapid.Map(rapid.Float64Range(-1e300, 1e300), func(f float64) any { return f }),
		rapid.Map(rapid.Int(), func(i int) any { return i }),
		rapid.SampledFrom([]any{nil, true, false, 1e-7, 1e16, 1e21, 0.1}),
	)
	if depth == 0 {
		return simple
	}
	return rapid.OneOf(simple,
		rapid.Map(rapid.SliceOfN(values(depth-1), 0, 3), func(v []any) any { return v }),
		rapid.Map(rapid.MapOfN(texts(), values(depth-1), 0, 3), func(v map[string]any) any { return v }))
}

func drawNotebook(t *rapid.T) *made {
	n, err := notebook.Parse(fmt.Appendf(nil, `{"nbformat":4,"nbformat_minor":%d,"metadata":{},"cells":[]}`, rapid.IntRange(0, 5).Draw(t, "minor")))
	if err != nil {
		t.Fatal(err)
	}
	if rapid.Bool().Draw(t, "new") {
		n = notebook.New()
	}
	m := &made{Notebook: n}
	for range rapid.IntRange(0, 5).Draw(t, "cells") {
		source := texts().Draw(t, "source")
		if rapid.Bool().Draw(t, "markdown") {
			n.AddMarkdown(source)
			m.want = append(m.want, madeCell{Type: "markdown", Source: source})
			continue
		}
		cell, want := n.AddCode(source), madeCell{Type: "code", Source: source}
		outputs := drawOutputs(t, &want)
		if err := cell.SetOutputs(outputs); err != nil {
			t.Fatal(err)
		}
		if rapid.Bool().Draw(t, "ran") {
			count := rapid.IntRange(0, 1000).Draw(t, "count")
			want.Count = &count
			if err := cell.SetExecutionCount(&count); err != nil {
				t.Fatal(err)
			}
		}
		m.want = append(m.want, want)
	}
	return m
}

func drawOutputs(t *rapid.T, want *madeCell) []notebook.Output {
	var outputs []notebook.Output
	for range rapid.IntRange(0, 3).Draw(t, "outputs") {
		if rapid.Bool().Draw(t, "stream") {
			printed := texts().Draw(t, "printed")
			outputs = append(outputs, notebook.Stream("stdout", printed))
			want.Data, want.Printed = append(want.Data, nil), append(want.Printed, printed)
			continue
		}
		bundle, data := map[string]any{}, map[string]string{}
		for _, mime := range rapid.SliceOfDistinct(rapid.SampledFrom(mimes), rapid.ID[string]).Draw(t, "mimes") {
			data[mime] = texts().Draw(t, mime)
			bundle[mime] = data[mime]
		}
		metadata := rapid.MapOfN(texts(), values(2), 0, 2).Draw(t, "metadata")
		o, err := notebook.DisplayData(bundle, metadata)
		if err != nil {
			t.Fatal(err)
		}
		outputs = append(outputs, o)
		want.Data, want.Printed = append(want.Data, data), append(want.Printed, "")
	}
	return outputs
}

// TestMadeReadsBack: whatever is put into a notebook is in it after writing and
// reading, in the file's own form and in the canonical one.
func TestMadeReadsBack(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		m := drawNotebook(t)
		for form, text := range map[string][]byte{"own": m.Bytes(), "canonical": m.Canonical()} {
			n, err := notebook.Parse(text)
			if err != nil {
				t.Fatalf("%s text: %v\n%s", form, err, text)
			}
			if diff := cmp.Diff(m.want, contents(n)); diff != "" {
				t.Fatalf("%s text (-put in +read back):\n%s", form, diff)
			}
			if n.Minor() != m.Minor() {
				t.Fatalf("minor version %d became %d", m.Minor(), n.Minor())
			}
			if n.Minor() < 5 && strings.Contains(string(text), `"id":`) {
				t.Fatalf("an id below 4.5:\n%s", text)
			}
			if got := n.Bytes(); string(got) != string(text) {
				t.Fatalf("%s text changed by reading (-before +after):\n%s", form, cmp.Diff(string(text), string(got)))
			}
		}
	})
}

// TestCanonicalStaysCanonical: new outputs and sources in a canonical file leave
// it canonical, so that a save in a front end changes nothing in it.
func TestCanonicalStaysCanonical(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		n, err := notebook.Parse(drawNotebook(t).Canonical())
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range n.Cells() {
			if rapid.Bool().Draw(t, "change the source") {
				c.SetSource(texts().Draw(t, "new source"))
			}
			if c.Type() != "code" {
				continue
			}
			var unused madeCell
			outputs := append(drawOutputs(t, &unused), c.Outputs()...)
			if len(outputs) > 0 {
				outputs = slices.Delete(outputs, 0, rapid.IntRange(0, len(outputs)).Draw(t, "dropped"))
			}
			if err := c.SetOutputs(outputs); err != nil {
				t.Fatal(err)
			}
			count := rapid.IntRange(0, 9).Draw(t, "new count")
			if err := c.SetExecutionCount(&count); err != nil {
				t.Fatal(err)
			}
		}
		n.AddCode(texts().Draw(t, "added"))
		if diff := cmp.Diff(string(n.Canonical()), string(n.Bytes())); diff != "" {
			t.Fatalf("no longer canonical (-canonical +got):\n%s", diff)
		}
	})
}

// FuzzParse: no text makes the reader panic; what it accepts it gives back to
// the byte, also after everything was set to what it is; the canonical text
// says the same and is its own canonical text.
func FuzzParse(f *testing.F) {
	for _, text := range samples(f) {
		f.Add([]byte(text))
	}
	f.Add([]byte(cells("5", `{"cell_type":"code","id":"a","outputs":[{"output_type":"stream","text":["\ud83d","\ude00"]}]}`)))
	f.Add([]byte(cells("6", `{"cell_type":"x","outputs":3}`)))
	f.Add([]byte(cells("4", `{"cell_type":"code","metadata":{},"source":"","outputs":[],"execution_count":-0}`))) // once became 0
	f.Fuzz(func(t *testing.T, data []byte) {
		n, err := notebook.Parse(data)
		if err != nil {
			if err.Error() == "" {
				t.Error("an error without words")
			}
			return
		}
		if got := n.Bytes(); string(got) != string(data) {
			t.Fatalf("changed by reading:\n%q\n%q", data, got)
		}
		before := contents(n)
		setToSame(t, n)
		if got := n.Bytes(); string(got) != string(data) {
			t.Fatalf("changed by setting the same:\n%q\n%q", data, got)
		}
		canonical := n.Canonical()
		again, err := notebook.Parse(canonical)
		if err != nil {
			t.Fatalf("canonical text: %v\n%s", err, canonical)
		}
		if diff := cmp.Diff(before, contents(again)); diff != "" {
			t.Fatalf("canonical text says something else (-before +after):\n%s", diff)
		}
		if got := again.Canonical(); string(got) != string(canonical) {
			t.Fatalf("canonical text is not canonical:\n%q\n%q", canonical, got)
		}
		changeAll(t, n)
	})
}

func setToSame(t *testing.T, n *notebook.Notebook) {
	t.Helper()
	for _, c := range n.Cells() {
		c.SetSource(c.Source())
		if c.Type() != "code" {
			continue
		}
		must(t, c.SetOutputs(c.Outputs()))
		must(t, c.SetExecutionCount(c.ExecutionCount()))
	}
}

// changeAll sets everything to something new and reads it back.
func changeAll(t *testing.T, n *notebook.Notebook) {
	t.Helper()
	count := 12345
	for _, c := range n.Cells() {
		c.SetSource("new\nsource")
		if c.Type() == "code" {
			must(t, c.SetOutputs(append(c.Outputs(), notebook.Stream("stderr", "new"))))
			must(t, c.SetExecutionCount(&count))
		}
	}
	n.AddMarkdown("added")
	again, err := notebook.Parse(n.Bytes())
	if err != nil {
		t.Fatalf("after changes: %v\n%s", err, n.Bytes())
	}
	if diff := cmp.Diff(contents(n), contents(again)); diff != "" {
		t.Fatalf("after changes (-in memory +read):\n%s", diff)
	}
}
