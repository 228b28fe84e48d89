package notebook

import (
	"slices"
	"strings"
	"testing"
)

// TestSplitLines: the ends are those of the table in the Python documentation,
// Built-in Types, str.splitlines; the examples are its own and one per end.
func TestSplitLines(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		in   string
		want []string
	}{
		{"", nil},
		{"One line\n", []string{"One line\n"}},
		{"ab c\n\nde fg\rkl\r\n", []string{"ab c\n", "\n", "de fg\r", "kl\r\n"}},
		{"a\n\rb", []string{"a\n", "\r", "b"}},
		{"a\vb\fc", []string{"a\v", "b\f", "c"}},
		{"a\x1cb\x1dc\x1ed\x1fe", []string{"a\x1c", "b\x1d", "c\x1e", "d\x1fe"}},
		{"a\u0085b\u2028c\u2029", []string{"a\u0085", "b\u2028", "c\u2029"}},
		{"µ\nΩ", []string{"µ\n", "Ω"}},
	} {
		if got := splitLines(test.in); !slices.Equal(got, test.want) {
			t.Errorf("splitLines(%q) = %q, want %q", test.in, got, test.want)
		}
	}
}

// TestSpellNumber: the wanted spellings are what json.dumps(json.loads(x)) of
// Python 3.11 printed.
func TestSpellNumber(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ in, want string }{
		{"0", "0"}, {"-0", "0"}, {"-0.0", "-0.0"}, {"1.50", "1.5"}, {"1E3", "1000.0"},
		{"1e15", "1000000000000000.0"}, {"1e16", "1e+16"}, {"9999999999999998.0", "9999999999999998.0"},
		{"0.0001", "0.0001"}, {"0.00001", "1e-05"}, {"0.00012345", "0.00012345"}, {"1e-7", "1e-07"},
		{"1.7976931348623157e308", "1.7976931348623157e+308"}, {"5e-324", "5e-324"}, {"1e-999", "0.0"},
		{"123456789012345678901234567890", "123456789012345678901234567890"},
		{"0.1000000000000000055511151231257827", "0.1"}, {"100.0", "100.0"}, {"1e22", "1e+22"}, {"-2.5e-3", "-0.0025"},
		// Python would write Infinity, which nothing else reads: the spelling stays.
		{"1.0e400", "1.0e400"},
	} {
		if got := spellNumber(test.in); got != test.want {
			t.Errorf("spellNumber(%s) = %s, want %s", test.in, got, test.want)
		}
	}
}

// TestTextEscapes: RFC 8259 section 7 for reading; for writing what Python's
// json.dumps(…, ensure_ascii=False) printed.
func TestTextEscapes(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ in, decoded, written string }{
		{`"a\/b"`, "a/b", `"a/b"`},
		{`"\"\\\b\f\n\r\t"`, "\"\\\b\f\n\r\t", `"\"\\\b\f\n\r\t"`},
		{`"\u0000\u001F\u007f"`, "\x00\x1f\x7f", "\"\\u0000\\u001f\x7f\""},
		{`"\u00B5<&>\u2028"`, "µ<&>\u2028", "\"µ<&>\u2028\""},
		{`"\uD83D\uDE00"`, "😀", `"😀"`},
		{`"\ud83dx"`, "\xED\xA0\xBDx", `"\ud83dx"`},
		{`"\ude00\ud83d"`, "\xED\xB8\x80\xED\xA0\xBD", `"\ude00\ud83d"`},
		{`"\ud83d\u0041"`, "\xED\xA0\xBDA", `"\ud83dA"`},
	} {
		p := &parser{src: test.in}
		got, err := p.text()
		if err != nil {
			t.Errorf("%s: %v", test.in, err)
			continue
		}
		if got != test.decoded {
			t.Errorf("%s read as %q, want %q", test.in, got, test.decoded)
		}
		var b strings.Builder
		writeText(&b, got)
		if b.String() != test.written {
			t.Errorf("%s written as %s, want %s", test.in, b.String(), test.written)
		}
	}
}

// TestCanonicalLeavesOut: what the reference's strip_transient removes, and
// transient, which the schema forbids in a file.
func TestCanonicalLeavesOut(t *testing.T) {
	t.Parallel()
	const in = `{"nbformat":4,"nbformat_minor":4,"metadata":{"signature":"s","orig_nbformat":3,"orig_nbformat_minor":1,"kept":{"signature":1}},` +
		`"cells":[{"cell_type":"code","metadata":{"trusted":true,"kept":1},"source":"","execution_count":null,` +
		`"outputs":[{"output_type":"display_data","transient":{"display_id":"1"},"data":{},"metadata":{}}]}]}`
	n, err := Parse([]byte(in))
	if err != nil {
		t.Fatal(err)
	}
	const want = `{
 "cells": [
  {
   "cell_type": "code",
   "execution_count": null,
   "metadata": {
    "kept": 1
   },
   "outputs": [
    {
     "data": {},
     "metadata": {},
     "output_type": "display_data"
    }
   ],
   "source": []
  }
 ],
 "metadata": {
  "kept": {
   "signature": 1
  }
 },
 "nbformat": 4,
 "nbformat_minor": 4
}
`
	if got := string(n.Canonical()); got != want {
		t.Errorf("canonical text\n%s\nwant\n%s", got, want)
	}
}
