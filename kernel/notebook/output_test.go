package notebook_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"ohmwright/kernel/notebook"
)

// TestOutputReadsBack: what the constructors take, the accessors give.
func TestOutputReadsBack(t *testing.T) {
	t.Parallel()
	one := 1
	result, err := notebook.ExecuteResult(&one, map[string]any{"text/plain": "2"}, nil)
	must(t, err)
	rich := display(t, map[string]any{
		"text/plain":       []string{"a\n", "b"},
		"image/png":        "aGFsbG8=",
		"application/json": map[string]any{"b": 1.5, "a": "<&>"},
	}, map[string]any{"ohmwright": map[string]any{"si": 4.7e-6}})

	if got := rich.Type(); got != "display_data" {
		t.Errorf("type %q", got)
	}
	want := map[string]string{"text/plain": "a\nb", "image/png": "aGFsbG8=", "application/json": `{"a":"<&>","b":1.5}`}
	if diff := cmp.Diff(want, rich.Data()); diff != "" {
		t.Errorf("data (-want +got):\n%s", diff)
	}
	if got := string(rich.Metadata()); got != `{"ohmwright":{"si":4.7e-06}}` {
		t.Errorf("metadata %s", got)
	}
	if result.Type() != "execute_result" || result.Data()["text/plain"] != "2" {
		t.Errorf("execute_result became %s %v", result.Type(), result.Data())
	}
	if name, printed := notebook.Stream("stderr", "x\ny").Text(); name != "stderr" || printed != "x\ny" {
		t.Errorf("stream became %q %q", name, printed)
	}
	name, value, trace := notebook.ErrorOutput("E", "v", []string{"one\ntwo", "three"}).Failure()
	if diff := cmp.Diff([]string{"E", "v", "one\ntwo", "three"}, append([]string{name, value}, trace...)); diff != "" {
		t.Errorf("error (-want +got):\n%s", diff)
	}
	if o := notebook.Stream("stdout", ""); o.Data() != nil || o.Metadata() != nil {
		t.Errorf("a stream has data %v and metadata %s", o.Data(), o.Metadata())
	}
}

// TestOutputBadBytes: a cell may print any bytes; the file is UTF-8 all the same.
func TestOutputBadBytes(t *testing.T) {
	t.Parallel()
	n := notebook.New()
	c := n.AddCode("a\xFFb")
	must(t, c.SetOutputs([]notebook.Output{
		notebook.Stream("stdout", "a\xFFb"),
		notebook.ErrorOutput("E\xFF", "\xC3", []string{"\xED\xA0\x80"}),
		display(t, map[string]any{"text/plain": "\xFE"}, map[string]any{"k\xFF": "v\xFF"}),
	}))
	again := parse(t, string(n.Bytes())).Cells()[0]
	if again.Source() != "a\uFFFDb" {
		t.Errorf("source %q", again.Source())
	}
	if _, printed := again.Outputs()[0].Text(); printed != "a\uFFFDb" {
		t.Errorf("printed %q", printed)
	}
}

// TestOutputErrors: what has no place in a bundle is refused with its name.
func TestOutputErrors(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name             string
		bundle, metadata map[string]any
		want             string
	}{
		{"number as text", map[string]any{"text/plain": 1}, nil, "output: value of text/plain must be a text, not int: only application/json and application/…+json take other values"},
		{"bytes as image", map[string]any{"image/png": []byte{1}}, nil, "output: value of image/png must be a text, not []uint8: only application/json and application/…+json take other values"},
		{"no JSON number", map[string]any{"application/json": math.NaN()}, nil, "output: value of application/json cannot be written as JSON: json: unsupported value: NaN"},
		{"function as metadata", nil, map[string]any{"f": func() {}}, "output: metadata cannot be written as JSON: json: unsupported type: func()"},
		{"repeated key", map[string]any{"application/json": json.RawMessage(`{"a":1,"a":2}`)}, nil, `output: value of application/json cannot be written as JSON: line 1, column 8: key "a" stands twice in one object: remove one of the two`},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			if _, err := notebook.DisplayData(test.bundle, test.metadata); err == nil || err.Error() != test.want {
				t.Errorf("error\n got %v\nwant %s", err, test.want)
			}
		})
	}
}

// TestCellErrors: setters refuse what the format does not allow, and change nothing.
func TestCellErrors(t *testing.T) {
	t.Parallel()
	file := string(sample(t, "canonical-4.5.ipynb"))
	n := parse(t, file)
	minus, one := -1, 1
	markdown, code := n.Cells()[0], n.Cells()[2]
	for _, test := range []struct {
		name string
		err  error
		want string
	}{
		{"outputs of text", markdown.SetOutputs([]notebook.Output{notebook.Stream("stdout", "x")}), "cell 1: a markdown cell has no outputs"},
		{"count of text", markdown.SetExecutionCount(&one), "cell 1: a markdown cell has no execution count"},
		{"negative count", code.SetExecutionCount(&minus), "cell 3: execution count must not be negative, got -1"},
		{"zero output", code.SetOutputs([]notebook.Output{notebook.Stream("stdout", "x"), {}}), "cell 3: output 2 is empty: make it with DisplayData, Stream or ErrorOutput"},
	} {
		if test.err == nil || test.err.Error() != test.want {
			t.Errorf("%s: error\n got %v\nwant %s", test.name, test.err, test.want)
		}
	}
	if diff := cmp.Diff(file, string(n.Bytes())); diff != "" {
		t.Errorf("a refused setting changed the file (-before +after):\n%s", diff)
	}
	if got := markdown.Outputs(); got != nil {
		t.Errorf("a markdown cell shows %v", got)
	}
}

// TestOutputEqual: content counts, not spelling.
func TestOutputEqual(t *testing.T) {
	t.Parallel()
	first := func(output string) notebook.Output {
		return parse(t, cells("4", `{"cell_type":"code","outputs":[`+output+`]}`)).Cells()[0].Outputs()[0]
	}
	for _, test := range []struct {
		name, a, b string
		want       bool
	}{
		{"string or lines", `{"output_type":"stream","name":"stdout","text":"a\nb"}`, `{"output_type":"stream","name":"stdout","text":["a","\nb"]}`, true},
		{"bundle, string or lines", `{"output_type":"display_data","metadata":{},"data":{"text/plain":"a\nb"}}`, `{"output_type":"display_data","data":{"text/plain":["a\n","b"]},"metadata":{}}`, true},
		{"escapes", `{"output_type":"stream","name":"stdout","text":"\u00b5"}`, `{"output_type":"stream","name":"stdout","text":"µ"}`, true},
		{"spelling of a number", `{"output_type":"display_data","metadata":{"a":1.0},"data":{}}`, `{"output_type":"display_data","metadata":{"a":1e0},"data":{}}`, true},
		{"whole or not", `{"output_type":"display_data","metadata":{"a":1},"data":{}}`, `{"output_type":"display_data","metadata":{"a":1.0},"data":{}}`, false},
		{"JSON lists are not lines", `{"output_type":"display_data","metadata":{},"data":{"application/json":["a","b"]}}`, `{"output_type":"display_data","metadata":{},"data":{"application/json":"ab"}}`, false},
		{"metadata", `{"output_type":"display_data","metadata":{"a":1},"data":{}}`, `{"output_type":"display_data","metadata":{},"data":{}}`, false},
		{"stream name", `{"output_type":"stream","name":"stdout","text":""}`, `{"output_type":"stream","name":"stderr","text":""}`, false},
		{"line end", `{"output_type":"stream","name":"stdout","text":"a"}`, `{"output_type":"stream","name":"stdout","text":"a\n"}`, false},
		{"traceback lines are separate", `{"output_type":"error","ename":"","evalue":"","traceback":["a","b"]}`, `{"output_type":"error","ename":"","evalue":"","traceback":["ab"]}`, false},
	} {
		a, b := first(test.a), first(test.b)
		if got := a.Equal(b); got != test.want || b.Equal(a) != test.want {
			t.Errorf("%s: equal is %v, want %v", test.name, got, test.want)
		}
	}
	if (notebook.Output{}).Equal(first(`{"output_type":"stream"}`)) {
		t.Error("the zero output equals one that is not")
	}
}

// TestOutputsFromAnotherFile: outputs copied between files take the form of the
// file they go to.
func TestOutputsFromAnotherFile(t *testing.T) {
	t.Parallel()
	from := parse(t, string(sample(t, "other-order-4.5.ipynb")))
	to := notebook.New()
	must(t, to.AddCode("x").SetOutputs(from.Cells()[1].Outputs()))
	if diff := cmp.Diff(string(to.Canonical()), string(to.Bytes())); diff != "" {
		t.Errorf("not canonical (-canonical +got):\n%s", diff)
	}
	crlf := parse(t, strings.ReplaceAll(string(sample(t, "canonical-4.5.ipynb")), "\n", "\r\n"))
	must(t, crlf.Cells()[2].SetOutputs(from.Cells()[1].Outputs()))
	if text := string(crlf.Bytes()); strings.Count(text, "\n") != strings.Count(text, "\r\n") {
		t.Error("line ends are mixed")
	}
}
