package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"os"
	"os/exec"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

func statusCmd(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N command [argument…]")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%v", err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
	for _, stream := range []string{"stdout", "stderr"} {
		if found := inside(ts.ReadFile(stream)); found != "" {
			ts.Fatalf("%s shows insides, %s", stream, found)
		}
	}
}

func editCmd(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: edit FILE OLD NEW")
	}
	text := ts.ReadFile(args[0])
	if n := strings.Count(text, args[1]); n != 1 {
		ts.Fatalf("%s has %q %d times", args[0], args[1], n)
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(strings.Replace(text, args[1], args[2], 1)), 0o666))
}

func untilCmd(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: until FILE TEXT")
	}
	for end := time.Now().Add(30 * time.Second); ; time.Sleep(10 * time.Millisecond) {
		text, err := os.ReadFile(ts.MkAbs(args[0]))
		switch {
		case strings.Contains(string(text), args[1]):
			return
		case time.Now().After(end):
			ts.Fatalf("%s does not come to hold %q: %v", args[0], args[1], err)
		}
	}
}

func cleanCmd(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) == 0 {
		ts.Fatalf("usage: clean FILE…")
	}
	for _, f := range args {
		text := ts.ReadFile(f)
		if found := inside(text); found != "" {
			ts.Fatalf("%s shows insides, %s", f, found)
		}
		if strings.Contains(text, ts.Getenv("WORK")) {
			ts.Fatalf("%s holds the path of the folder it is in", f)
		}
	}
}

// documents reads a file of JSON values, one after the other.
func documents(ts *testscript.TestScript, file string) []any {
	var docs []any
	dec := json.NewDecoder(strings.NewReader(ts.ReadFile(file)))
	for dec.More() {
		var d any
		ts.Check(dec.Decode(&d))
		docs = append(docs, d)
	}
	return docs
}

func jsonCmd(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) < 2 || len(args) > 3 || neg && len(args) == 3 {
		ts.Fatalf("usage: [!] json FILE PATH [WANT]")
	}
	var at any = documents(ts, args[0])
	found := true
	for _, key := range strings.Split(args[1], "/") {
		switch x := at.(type) {
		case []any:
			i, err := strconv.Atoi(key)
			ts.Check(err)
			if found = i < len(x); found {
				at = x[i]
			}
		case map[string]any:
			at, found = x[key]
		default:
			found = false
		}
		if !found {
			break
		}
	}
	switch {
	case neg && found:
		ts.Fatalf("%s is there: %v", args[1], at)
	case !neg && !found:
		ts.Fatalf("%s is not there", args[1])
	case len(args) < 3:
		return
	}
	want := args[2]
	switch x := at.(type) {
	case float64:
		w, err := strconv.ParseFloat(want, 64)
		if err != nil || math.Abs(x-w) > 1e-12*math.Abs(w) {
			ts.Fatalf("%s is %v, want %s", args[1], x, want)
		}
	case string:
		if x != want {
			ts.Fatalf("%s is %q, want %q", args[1], x, want)
		}
	default:
		if b, _ := json.Marshal(x); string(b) != want {
			ts.Fatalf("%s is %s, want %s", args[1], b, want)
		}
	}
}

// fields wants an object to have exactly these keys, each with a value of
// its kind: s text, n number, N number or null, b truth value, o object, l list.
func fields(ts *testscript.TestScript, where string, x any, keys map[string]string) map[string]any {
	m, ok := x.(map[string]any)
	if !ok {
		ts.Fatalf("%s is no object but %v", where, x)
	}
	for k := range m {
		if keys[k] == "" {
			ts.Fatalf("%s has a field %s that nobody asked for", where, k)
		}
	}
	for k, kind := range keys {
		v, ok := m[k]
		if !ok {
			ts.Fatalf("%s has no field %s", where, k)
		}
		got := "null"
		switch v.(type) {
		case string:
			got = "s"
		case float64:
			got = "n"
		case bool:
			got = "b"
		case map[string]any:
			got = "o"
		case []any:
			got = "l"
		}
		if got != kind && !(kind == "N" && (got == "n" || got == "null")) {
			ts.Fatalf("%s: field %s is %v", where, k, v)
		}
	}
	return m
}

func shapeCmd(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: shape FILE")
	}
	docs := documents(ts, args[0])
	if lines := strings.Count(ts.ReadFile(args[0]), "\n"); len(docs) == 0 || lines != len(docs) {
		ts.Fatalf("%d notes in %d lines", len(docs), lines)
	}
	for _, d := range docs {
		n := fields(ts, "a note", d, map[string]string{"note": "s", "values": "o", "requirements": "l", "errors": "l"})
		for name, v := range n["values"].(map[string]any) {
			fields(ts, name, v, map[string]string{"si": "N", "unit": "s", "text": "s", "cell": "s", "description": "s", "source": "s", "reason": "s"})
		}
		for _, r := range n["requirements"].([]any) {
			fields(ts, "a requirement", r, map[string]string{"text": "s", "holds": "b", "margin_si": "N", "margin": "s", "unit": "s"})
		}
		for _, e := range n["errors"].([]any) {
			fields(ts, "an error", e, map[string]string{"cell": "s", "line": "n", "column": "n", "message": "s"})
		}
	}
}

func treeCmd(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: tree FILE")
	}
	docs := documents(ts, args[0])
	if len(docs) != 1 {
		ts.Fatalf("%d trees", len(docs))
	}
	var walk func(x any)
	walk = func(x any) {
		m, ok := x.(map[string]any)
		if !ok {
			ts.Fatalf("a node is no object but %v", x)
		}
		// The fields that every program may count on; a node may tell more.
		for k, kind := range map[string]string{"name": "s", "formula": "s", "numbers": "s", "text": "s", "si": "N", "description": "s", "source": "s", "inputs": "l"} {
			fields(ts, "node "+k, map[string]any{k: m[k]}, map[string]string{k: kind})
		}
		for _, i := range m["inputs"].([]any) {
			walk(i)
		}
	}
	walk(docs[0])
}

func changedCmd(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: changed A B NAME…")
	}
	values := func(file string) map[string]json.RawMessage {
		var n struct {
			Values map[string]struct{ SI, Unit, Text json.RawMessage }
		}
		ts.Check(json.Unmarshal([]byte(ts.ReadFile(file)), &n))
		m := map[string]json.RawMessage{}
		for k, v := range n.Values {
			m[k] = bytes.Join([][]byte{v.SI, v.Unit, v.Text}, []byte(" "))
		}
		return m
	}
	a, b := values(args[0]), values(args[1])
	var got []string
	for k := range a {
		if !bytes.Equal(a[k], b[k]) {
			got = append(got, k)
		}
	}
	for k := range b {
		if a[k] == nil {
			got = append(got, k)
		}
	}
	want := slices.Clone(args[2:])
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) {
		ts.Fatalf("changed are %v, want %v", got, want)
	}
}
