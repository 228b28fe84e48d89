package notebook_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"ohmwright/kernel/notebook"
)

const sampleDir = "testdata/samples"

func sample(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(sampleDir, name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// samples gives every sample file, and each again with the line ends and the
// file end that other systems and editors leave.
func samples(t testing.TB) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(sampleDir)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, e := range entries {
		text := string(sample(t, e.Name()))
		out[e.Name()] = text
		out[e.Name()+" with CRLF"] = strings.ReplaceAll(text, "\n", "\r\n")
		out[e.Name()+" without newline at the end"] = strings.TrimRight(text, "\n")
		out[e.Name()+" with blank lines at the end"] = text + "\n \n"
	}
	if len(out) < 40 {
		t.Fatalf("only %d samples", len(out))
	}
	return out
}

func parse(t testing.TB, text string) *notebook.Notebook {
	t.Helper()
	n, err := notebook.Parse([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// must fails the test for an error.
func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func display(t testing.TB, bundle, metadata map[string]any) notebook.Output {
	t.Helper()
	out, err := notebook.DisplayData(bundle, metadata)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// rebuilt makes an output anew from what it says, in the one way that the
// constructors have, so that nothing of its spelling in a file is left.
func rebuilt(t testing.TB, o notebook.Output) notebook.Output {
	t.Helper()
	switch o.Type() {
	case "stream":
		return notebook.Stream(o.Text())
	case "error":
		return notebook.ErrorOutput(o.Failure())
	case "display_data":
		bundle := map[string]any{}
		for mime, value := range o.Data() {
			bundle[mime] = value
			if mime == "application/json" || strings.HasSuffix(mime, "+json") {
				bundle[mime] = json.RawMessage(value)
			}
		}
		var metadata map[string]any
		d := json.NewDecoder(bytes.NewReader(o.Metadata()))
		d.UseNumber()
		must(t, d.Decode(&metadata))
		return display(t, bundle, metadata)
	}
	return o
}

func TestUntouchedStaysToTheByte(t *testing.T) {
	t.Parallel()
	for name, text := range samples(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			n := parse(t, text)
			if diff := cmp.Diff(text, string(n.Bytes())); diff != "" {
				t.Errorf("read and written (-file +written):\n%s", diff)
			}
		})
	}
}

// TestSameAgainStaysToTheByte sets everything to what it is already.
func TestSameAgainStaysToTheByte(t *testing.T) {
	t.Parallel()
	for name, text := range samples(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			n := parse(t, text)
			for _, c := range n.Cells() {
				c.SetSource(c.Source())
				if c.Type() != "code" {
					continue
				}
				must(t, c.SetExecutionCount(c.ExecutionCount()))
				var outs []notebook.Output
				for _, o := range c.Outputs() {
					outs = append(outs, rebuilt(t, o))
				}
				must(t, c.SetOutputs(outs))
			}
			if diff := cmp.Diff(text, string(n.Bytes())); diff != "" {
				t.Errorf("set to the same and written (-file +written):\n%s", diff)
			}
		})
	}
}

// TestChangeAndBackStaysToTheByte changes everything and puts it back.
func TestChangeAndBackStaysToTheByte(t *testing.T) {
	t.Parallel()
	for name, text := range samples(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			n := parse(t, text)
			one := 1001
			for _, c := range n.Cells() {
				source := c.Source()
				c.SetSource("changed")
				if c.Source() != "changed" {
					t.Errorf("cell %d: source did not change", c.Number())
				}
				if c.Type() == "code" {
					outputs, count := c.Outputs(), c.ExecutionCount()
					must(t, c.SetExecutionCount(&one))
					must(t, c.SetOutputs([]notebook.Output{notebook.Stream("stdout", "x")}))
					if string(n.Bytes()) == text {
						t.Errorf("cell %d: the change does not show", c.Number())
					}
					parse(t, string(n.Bytes()))
					must(t, c.SetOutputs(outputs))
					must(t, c.SetExecutionCount(count))
				}
				c.SetSource(source)
			}
			if diff := cmp.Diff(text, string(n.Bytes())); diff != "" {
				t.Errorf("changed and put back (-file +written):\n%s", diff)
			}
		})
	}
}

// TestOnlyThePlaceChanges: what is set is replaced where it stands, in the
// file's own indent and line ends, and not one byte elsewhere. The expected
// texts are written out by hand.
func TestOnlyThePlaceChanges(t *testing.T) {
	t.Parallel()
	three := 3
	stream := []notebook.Output{notebook.Stream("stdout", "a\nb")}
	for _, test := range []struct {
		name, reason, file string
		cell               int
		change             func(*notebook.Cell) error
		old, new           string
	}{
		{
			"outputs, tabs", "the file's indent is a tab", "ids-4.4.ipynb", 2,
			func(c *notebook.Cell) error { return c.SetOutputs(stream) },
			"\t\t\t\"outputs\": [],\n",
			"\t\t\t\"outputs\": [\n\t\t\t\t{\n\t\t\t\t\t\"name\": \"stdout\",\n\t\t\t\t\t\"output_type\": \"stream\",\n\t\t\t\t\t\"text\": [\n\t\t\t\t\t\t\"a\\n\",\n\t\t\t\t\t\t\"b\"\n\t\t\t\t\t]\n\t\t\t\t}\n\t\t\t],\n",
		},
		{
			"count, tabs", "one word", "ids-4.4.ipynb", 2,
			func(c *notebook.Cell) error { return c.SetExecutionCount(&three) },
			"\"execution_count\": null", "\"execution_count\": 3",
		},
		{
			"outputs, one line", "a file without line ends gets none", "one-line-4.4.ipynb", 1,
			func(c *notebook.Cell) error { return c.SetOutputs(stream) },
			`"outputs": []`, `"outputs": [{"name": "stdout", "output_type": "stream", "text": ["a\n", "b"]}]`,
		},
		{
			"source, one line", "cut into lines, as the reference writer does", "one-line-4.4.ipynb", 1,
			func(c *notebook.Cell) error { c.SetSource("µ <&>\r\nz"); return nil },
			`"x := 1\ny := 2"`, `["µ <&>\r\n", "z"]`,
		},
		{
			"one of two outputs", "the first keeps its spelling, the second is new", "other-order-4.5.ipynb", 2,
			func(c *notebook.Cell) error {
				return c.SetOutputs([]notebook.Output{notebook.Stream("stdout", "joined\ntext\n"), notebook.Stream("stderr", "")})
			},
			`        {
          "output_type": "display_data",
          "metadata": {},
          "data": {"text/plain": "V\u03b8  3 \u03a9", "image/png": ["aGFs", "bG8="], "application/json": {"b": 1.50, "a": ["x", "y"]}}
        }`,
			`        {
          "name": "stderr",
          "output_type": "stream",
          "text": []
        }`,
		},
		{
			"missing keys", "a cell without outputs gets them behind its last key", "lacking-4.5.ipynb", 1,
			func(c *notebook.Cell) error {
				if err := c.SetOutputs(stream); err != nil {
					return err
				}
				return c.SetExecutionCount(&three)
			},
			`   "source": "x := \ud800 \"1\""
`,
			`   "source": "x := \ud800 \"1\"",
   "outputs": [
    {
     "name": "stdout",
     "output_type": "stream",
     "text": [
      "a\n",
      "b"
     ]
    }
   ],
   "execution_count": 3
`,
		},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			for _, ends := range []string{"\n", "\r\n"} {
				in := func(s string) string { return strings.ReplaceAll(s, "\n", ends) }
				file := in(string(sample(t, test.file)))
				if strings.Count(file, in(test.old)) != 1 {
					t.Fatalf("the sample does not hold the text once:\n%s", test.old)
				}
				n := parse(t, file)
				must(t, test.change(n.Cells()[test.cell-1]))
				want := strings.Replace(file, in(test.old), in(test.new), 1)
				if diff := cmp.Diff(want, string(n.Bytes())); diff != "" {
					t.Errorf("%s (-want +got):\n%s", test.reason, diff)
				}
			}
		})
	}
}

// TestAddedCells: cells go behind the last one; ids follow from their place and
// exist from 4.5 on only. The expected text is written out by hand.
func TestAddedCells(t *testing.T) {
	t.Parallel()
	n := notebook.New()
	n.AddMarkdown("# Title\nText")
	code := n.AddCode("x := 1Ω")
	one := 1
	must(t, code.SetExecutionCount(&one))
	must(t, code.SetOutputs([]notebook.Output{display(t, map[string]any{"text/plain": "x   1 Ω"}, nil)}))
	n.AddCode("")
	const want = `{
 "cells": [
  {
   "cell_type": "markdown",
   "id": "cell-1",
   "metadata": {},
   "source": [
    "# Title\n",
    "Text"
   ]
  },
  {
   "cell_type": "code",
   "execution_count": 1,
   "id": "cell-2",
   "metadata": {},
   "outputs": [
    {
     "data": {
      "text/plain": [
       "x   1 Ω"
      ]
     },
     "metadata": {},
     "output_type": "display_data"
    }
   ],
   "source": [
    "x := 1Ω"
   ]
  },
  {
   "cell_type": "code",
   "execution_count": null,
   "id": "cell-3",
   "metadata": {},
   "outputs": [],
   "source": []
  }
 ],
 "metadata": {
  "kernelspec": {
   "display_name": "Ohmwright",
   "language": "go",
   "name": "ohmwright"
  }
 },
 "nbformat": 4,
 "nbformat_minor": 5
}
`
	if diff := cmp.Diff(want, string(n.Bytes())); diff != "" {
		t.Errorf("new notebook (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(want, string(n.Canonical())); diff != "" {
		t.Errorf("new notebook, canonical (-want +got):\n%s", diff)
	}
	if n.KernelName() != "ohmwright" {
		t.Errorf("kernel name %q", n.KernelName())
	}

	t.Run("id in use", func(t *testing.T) {
		n := parse(t, cells("5", `{"cell_type":"raw","id":"cell-2"}`))
		c := n.AddCode("x")
		if c.ID() != "cell-2-2" {
			t.Errorf("id %q beside a cell-2", c.ID())
		}
		again := parse(t, string(n.Bytes()))
		if got := again.Cells()[1].ID(); got != "cell-2-2" {
			t.Errorf("id %q after writing", got)
		}
	})
	t.Run("behind others", func(t *testing.T) {
		file := string(sample(t, "one-line-4.4.ipynb"))
		n := parse(t, file)
		if id := n.AddCode("z").ID(); id != "" {
			t.Errorf("id %q below 4.5", id)
		}
		const last = `"source": []}`
		want := strings.Replace(file, last, last+`, {"cell_type": "code", "execution_count": null, "metadata": {}, "outputs": [], "source": ["z"]}`, 1)
		if diff := cmp.Diff(want, string(n.Bytes())); diff != "" {
			t.Errorf("cell added (-want +got):\n%s", diff)
		}
	})
	t.Run("behind others in an indented file", func(t *testing.T) {
		for _, name := range []string{"canonical-4.4.ipynb", "canonical-4.5.ipynb"} {
			n := parse(t, string(sample(t, name)))
			n.AddCode("z := 1\n")
			n.AddMarkdown("")
			if diff := cmp.Diff(string(n.Canonical()), string(n.Bytes())); diff != "" {
				t.Errorf("%s: a canonical file is no longer canonical (-canonical +got):\n%s", name, diff)
			}
		}
	})
}
