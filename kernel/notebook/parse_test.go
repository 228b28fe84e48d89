package notebook_test

import (
	"errors"
	"strings"
	"testing"

	"ohmwright/kernel/notebook"
)

// cells wraps cells into an otherwise good notebook of the given minor version;
// the cells begin on line 2.
func cells(minor, list string) string {
	return "{\"nbformat\":4,\"nbformat_minor\":" + minor + ",\"metadata\":{},\n\"cells\":[" + list + "]}"
}

// TestParseErrors is the table of all messages for files that are refused.
func TestParseErrors(t *testing.T) {
	t.Parallel()
	const cut = ": it was cut off; take it from a backup or from version control"
	const encoding = ": save it as UTF-8 without byte order mark"
	for _, test := range []struct{ name, reason, in, want string }{
		{"empty", "a full disk leaves such files", "", "the file is empty" + cut},
		{"blank", "the same after an editor's save", " \n\r\t", "the file is empty" + cut},
		{"byte order mark", "front ends refuse it too", "\xEF\xBB\xBF{}", "line 1, column 1: the file begins with a byte order mark" + encoding},
		{"utf-16", "an editor's 'Unicode'", "\xFF\xFE{\x00", "line 1, column 1: the file is UTF-16" + encoding},
		{"latin-1", "µ as one byte", "{\"a\":\n\"ü\xB5\"}", "line 2, column 3: the file is not valid UTF-8: byte 0xB5" + encoding},
		{"a program", "the wrong file", "package main\n", `line 1, column 1: not a notebook: a notebook is JSON and begins with {, this begins with "package"`},
		{"a web page", "a saved error page of a server", "<!DOCTYPE html>", `line 1, column 1: not a notebook: a notebook is JSON and begins with {, this begins with "<"`},
		{"a list", "JSON, but no notebook", "[1]", "line 1, column 1: not a notebook: it must be an object, found a list"},
		{"a word", "JSON, but no notebook", "true", "line 1, column 1: not a notebook: it must be an object, found true or false"},
		{"other object", "a package.json", `{"name":"x"}`, `line 1, column 1: not a notebook: it has no "nbformat"`},
		{"no cells", "a format without content", `{"nbformat":4,"nbformat_minor":5}`, `line 1, column 1: not a notebook: it has no "cells"`},

		{"cut in object", "truncated", "{\n \"cells\": [\n  {\"source\": \"x\"", "line 3, column 17: the file ends inside the object that begins at line 3, column 3" + cut},
		{"cut in list", "truncated", "{\n \"cells\": [", "line 2, column 12: the file ends inside the list that begins at line 2, column 11" + cut},
		{"cut in text", "truncated", "{\"ab", "line 1, column 5: the file ends in the text that begins at line 1, column 2, inside the object that begins at line 1, column 1" + cut},
		{"cut in escape", "truncated", `{"a\u00`, "line 1, column 8: the file ends in an escape, inside the object that begins at line 1, column 1" + cut},
		{"cut at backslash", "truncated", `{"a\`, "line 1, column 5: the file ends in an escape, inside the object that begins at line 1, column 1" + cut},
		{"cut in word", "truncated", `{"a":nul`, "line 1, column 9: the file ends in a word, inside the object that begins at line 1, column 1" + cut},
		{"cut in number", "truncated", `{"a":-`, "line 1, column 7: the file ends inside the object that begins at line 1, column 1" + cut},

		{"surplus", "two files joined", "{}\n{}", `line 2, column 1: not valid JSON: expected the end of the file, found "{"`},
		{"comma at the end", "written by hand", `{"a":1,}`, `line 1, column 8: not valid JSON: expected a key in double quotes, found "}"`},
		{"comma at the end of a list", "written by hand", `{"a":[1,]}`, `line 1, column 9: not valid JSON: expected a value, found "]"`},
		{"no comma", "written by hand", `{"a":1 "b":2}`, `line 1, column 8: not valid JSON: expected "," or "}", found a double quote`},
		{"no comma in list", "written by hand", `{"a":[1 2]}`, `line 1, column 9: not valid JSON: expected "," or "]", found "2"`},
		{"no colon", "written by hand", `{"a" 1}`, `line 1, column 6: not valid JSON: expected ":", found "1"`},
		{"single quotes", "Python's own notation", `{'a': 1}`, `line 1, column 2: not valid JSON: expected a key in double quotes, found "'"`},
		{"leading zero", "no JSON number", `{"a":01}`, `line 1, column 7: not valid JSON: expected "," or "}", found "1"`},
		{"no digit", "no JSON number", `{"a":1.}`, `line 1, column 8: not valid JSON: expected a digit, found "}"`},
		{"no exponent", "no JSON number", `{"a":1e+}`, `line 1, column 9: not valid JSON: expected a digit, found "}"`},
		{"not a number", "Python writes NaN, nothing else reads it", `{"a":NaN}`, `line 1, column 6: NaN is not a JSON number: write null or a text`},
		{"minus infinity", "as NaN", `{"a":-Infinity}`, `line 1, column 7: Infinity is not a JSON number: write null or a text`},
		{"line end in text", "broken by a mail program", "{\"a\nb\":1}", `line 1, column 4: a text in quotes holds the control character U+000A: write it as an escape such as \n`},
		{"unknown escape", "a path with backslashes", `{"C:\work":1}`, `line 1, column 5: not valid JSON: "\\w" is not an escape: write \\ for a backslash`},
		{"bad hex", "no four digits", `{"\u00zz":1}`, `line 1, column 3: not valid JSON: \u needs four hexadecimal digits`},
		{"merge conflict", "version control left its marks", "{\n<<<<<<< HEAD\n \"a\": 1}", "line 2, column 1: an unresolved merge conflict stands here: resolve it in version control first"},
		{"repeated key", "which one counts differs between readers", "{\"a\":1,\n\"\\u0061\":2}", `line 2, column 1: key "a" stands twice in one object: remove one of the two`},
		{"repeated key deep inside", "as above", cells("5", `{"cell_type":"raw","metadata":{"x":[{"b":1,"b":1}]}}`), `line 2, column 53: key "b" stands twice in one object: remove one of the two`},
		{"nesting bomb", "would exhaust the stack", strings.Repeat("[", 100000), "line 1, column 901: brackets are nested more than 900 deep"},

		{"format 3", "written before 2015", `{"nbformat":3,"nbformat_minor":0,"worksheets":[]}`, "line 1, column 13: notebook format 3 is too old, 4 is the oldest that can be read: convert it with jupyter nbconvert --to notebook --inplace"},
		{"format 5", "not yet defined", `{"nbformat":5,"nbformat_minor":1,"cells":[]}`, "line 1, column 13: notebook format 5.1 is newer than 4.5, the newest that can be read: save it as nbformat 4.5"},
		{"format as text", "wrong type", `{"nbformat":"4"}`, "line 1, column 13: nbformat must be a whole number, found a text"},
		{"format with fraction", "wrong type", `{"nbformat":4.5}`, `line 1, column 13: nbformat must be a whole number, found "4.5"`},
		{"minor null", "wrong type", `{"nbformat":4,"nbformat_minor":null}`, "line 1, column 32: nbformat_minor must be a whole number, found null"},
		{"cells as object", "wrong type", `{"nbformat":4,"cells":{}}`, "line 1, column 23: cells must be a list, found an object"},
		{"metadata as list", "wrong type", `{"nbformat":4,"metadata":[],"cells":[]}`, "line 1, column 26: notebook: metadata must be an object, found a list"},

		{"cell as number", "wrong type", cells("5", `1`), "line 2, column 10: cell 1: a cell must be an object, found a number"},
		{"no cell type", "cannot be guessed", cells("5", `{"cell_type":"raw"},{}`), `line 2, column 30: cell 2: the cell has no "cell_type"`},
		{"cell type as number", "wrong type", cells("5", `{"cell_type":1}`), "line 2, column 23: cell 1: cell_type must be a text, found a number"},
		{"heading cell", "a type of format 3", cells("5", `{"cell_type":"heading"}`), `line 2, column 23: cell 1: cell_type must be "code", "markdown" or "raw", found "heading"`},
		{"source as number", "wrong type", cells("4", `{"cell_type":"code","source":7}`), "line 2, column 39: cell 1: source must be a text or a list of texts, found a number"},
		{"source with number", "wrong type", cells("4", `{"cell_type":"code","source":["a",7]}`), "line 2, column 44: cell 1: source must be a text or a list of texts, found a number in the list"},
		{"cell metadata", "wrong type", cells("4", `{"cell_type":"raw","metadata":null}`), "line 2, column 40: cell 1: metadata must be an object, found null"},
		{"attachments", "wrong type", cells("4", `{"cell_type":"markdown","attachments":[]}`), "line 2, column 48: cell 1: attachments must be an object, found a list"},
		{"attachment", "wrong type", cells("4", `{"cell_type":"markdown","attachments":{"a.png":"x"}}`), "line 2, column 57: cell 1: attachment a.png must be an object, found a text"},
		{"id as number", "wrong type", cells("5", `{"cell_type":"raw","id":1}`), "line 2, column 34: cell 1: id must be a text, found a number"},
		{"same id", "the format demands unique ids", cells("5", `{"cell_type":"raw","id":"a"},{"cell_type":"code","id":"a"}`), `line 2, column 64: cell 2: id "a" is also that of cell 1: give this one another id`},
		{"execution count", "wrong type", cells("4", `{"cell_type":"code","execution_count":"1"}`), "line 2, column 48: cell 1: execution_count must be a whole number, found a text"},
		{"execution count below zero", "the schema's minimum", cells("4", `{"cell_type":"code","execution_count":-1}`), `line 2, column 48: cell 1: execution_count must be a whole number, found "-1"`},
		{"outputs", "wrong type", cells("4", `{"cell_type":"code","outputs":{}}`), "line 2, column 40: cell 1: outputs must be a list, found an object"},
		{"output", "wrong type", cells("4", `{"cell_type":"code","outputs":["x"]}`), "line 2, column 41: cell 1: output 1: must be an object, found a text"},
		{"no output type", "cannot be guessed", cells("4", `{"cell_type":"code","outputs":[{}]}`), `line 2, column 41: cell 1: output 1: it has no "output_type"`},
		{"output type", "wrong type", cells("4", `{"cell_type":"code","outputs":[{"output_type":[]}]}`), "line 2, column 56: cell 1: output 1: output_type must be a text, found a list"},
		{"output data", "wrong type", cells("4", `{"cell_type":"code","outputs":[{"output_type":"display_data","data":"x"}]}`), "line 2, column 78: cell 1: output 1: data must be an object, found a text"},
		{"output metadata", "wrong type", cells("4", `{"cell_type":"code","outputs":[{"output_type":"display_data","metadata":1}]}`), "line 2, column 82: cell 1: output 1: metadata must be an object, found a number"},
		{"stream name", "wrong type", cells("4", `{"cell_type":"code","outputs":[{"output_type":"stream","name":1}]}`), "line 2, column 72: cell 1: output 1: name must be a text, found a number"},
		{"stream text", "wrong type", cells("4", `{"cell_type":"code","outputs":[{"output_type":"stream","text":1}]}`), "line 2, column 72: cell 1: output 1: text must be a text or a list of texts, found a number"},
		{"error name", "wrong type", cells("4", `{"cell_type":"code","outputs":[{"output_type":"error","ename":1}]}`), "line 2, column 72: cell 1: output 1: ename must be a text, found a number"},
		{"traceback", "wrong type", cells("4", `{"cell_type":"code","outputs":[{"output_type":"error","traceback":"x"}]}`), "line 2, column 76: cell 1: output 1: traceback must be a list of texts, found a text"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			_, err := notebook.Parse([]byte(test.in))
			if err == nil {
				t.Fatalf("accepted, but it must be refused: %s", test.reason)
			}
			if err.Error() != test.want {
				t.Errorf("message\n got %s\nwant %s", err, test.want)
			}
			var e *notebook.Error
			if !errors.As(err, &e) {
				t.Errorf("error is a %T, not a *notebook.Error", err)
			}
		})
	}
}

// TestParseAccepts holds what other programs write and must not be refused.
func TestParseAccepts(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ name, reason, in string }{
		{"no minor", "the reference reader takes it as 0", `{"nbformat":4,"cells":[]}`},
		{"same id below 4.5", "ids do not exist there: unknown keys", cells("4", `{"cell_type":"raw","id":"a"},{"cell_type":"raw","id":"a"}`)},
		{"4.5 without ids", "written by tools that raised the version only", cells("5", `{"cell_type":"raw"},{"cell_type":"raw"}`)},
		{"unknown cell type of a later minor", "the format promises that minor versions only add", cells("6", `{"cell_type":"sketch"}`)},
		{"unknown output type", "as above", cells("5", `{"cell_type":"code","outputs":[{"output_type":"later","data":1}]}`)},
		{"outputs in a markdown cell", "left behind when a front end changed the type", cells("4", `{"cell_type":"markdown","outputs":1}`)},
		{"nesting at the limit", "still readable", `{"nbformat":4,"cells":[],"x":` + strings.Repeat("[", 899) + strings.Repeat("]", 899) + "}"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			n, err := notebook.Parse([]byte(test.in))
			if err != nil {
				t.Fatalf("%v, but: %s", err, test.reason)
			}
			if string(n.Bytes()) != test.in {
				t.Errorf("changed to %s", n.Bytes())
			}
		})
	}
}

// TestTruncatedAnywhere cuts a good file at every byte: never a notebook, never
// a panic, always a place.
func TestTruncatedAnywhere(t *testing.T) {
	t.Parallel()
	whole := strings.TrimRight(string(sample(t, "canonical-4.5.ipynb")), "\n")
	for i := range len(whole) {
		_, err := notebook.Parse([]byte(whole[:i]))
		var e *notebook.Error
		if !errors.As(err, &e) {
			t.Fatalf("the first %d bytes: error %v", i, err)
		}
		if i > 0 && e.Line == 0 {
			t.Fatalf("the first %d bytes: error without a line: %v", i, err)
		}
	}
}
