package jupyter

import (
	"context"
	"encoding/json"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
)

// startEngine serves a real engine to a client of this process.
func startEngine(t *testing.T) person {
	t.Helper()
	e, err := NewEngine(nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	c := &connection{Transport: "ipc", IP: filepath.Join(t.TempDir(), "k"), Key: "key",
		Shell: 1, IOPub: 2, Stdin: 3, Control: 4, Heartbeat: 5}
	ctx, cancel := context.WithCancel(context.Background())
	k := &running{t: t, conn: c, ended: make(chan error, 1)}
	go func() { k.ended <- serve(ctx, c, e, testInfo) }()
	t.Cleanup(func() {
		cancel()
		<-k.ended
	})
	return k.client()
}

// described is one entry of the metadata that front ends read.
type described struct {
	Start, End            int
	Text, Type, Signature string
}

// A front end replaces the code points from cursor_start to cursor_end, and so
// says the metadata. Ω, µ and ° are one each, 𝛀 as well, though it is two
// units of UTF-16.
func TestEngineCompletes(t *testing.T) {
	t.Parallel()
	p := startEngine(t)
	p.run("Vin := 24V // supply\nΩx := 5µF\nR𝛀 := 3kΩ")
	for _, c := range []struct {
		code       string // with the cursor
		start, end int
		first      described
	}{
		{"x := Vi|", 5, 7, described{5, 7, "Vin", "quantity", "24 V  supply"}},
		{"a := 3kΩ; b := 5µF; c := 9°C; x := Vi|", 35, 37, described{35, 37, "Vin", "quantity", "24 V  supply"}},
		{"s := \"𝛀𝛀\"; x := Vi|", 16, 18, described{16, 18, "Vin", "quantity", "24 V  supply"}},
		{"y := Ω|", 5, 6, described{5, 6, "Ωx", "quantity", "5 µF"}},
		{"y := R𝛀|", 5, 7, described{5, 7, "R𝛀", "quantity", "3 kΩ"}},
		{"y := 3kΩ + 10k|", 13, 14, described{13, 14, "kΩ", "unit", "resistance"}},
		{"θ := 62°C/|", 10, 10, described{10, 10, "W", "unit", "thermal resistance"}},
		{"x := divider.Pl|", 13, 15, described{13, 15, "Plain", "function", "(input Quantity, upper Quantity, lower Quantity) (divider.PlainResult, error)"}},
		{"x := the|rmal", 5, 8, described{5, 8, "thermal", "package", "ohmwright/lib/thermal"}},
		{"fo|", 0, 2, described{0, 2, "for", "keyword", ""}},
	} {
		before, after, _ := strings.Cut(c.code, "|")
		got := p.reply(p.sendOn(p.shell, "complete_request", opts{"code": before + after, "cursor_pos": len([]rune(before))}))
		text, err := json.Marshal(got["metadata"].(map[string]any)[typesKey])
		if err != nil {
			t.Fatal(err)
		}
		var list []described
		if err := json.Unmarshal(text, &list); err != nil || len(list) == 0 {
			t.Errorf("%q: %v, metadata %s", c.code, err, text)
			continue
		}
		matches := got["matches"].([]any)
		if got["cursor_start"] != float64(c.start) || got["cursor_end"] != float64(c.end) || list[0] != c.first || matches[0] != c.first.Text || len(matches) != len(list) {
			t.Errorf("%q: %v to %v, %d matches, %d described, first %+v", c.code, got["cursor_start"], got["cursor_end"], len(matches), len(list), list[0])
		}
	}
	got := p.reply(p.sendOn(p.shell, "complete_request", opts{"code": "// nothing", "cursor_pos": 10}))
	if text, _ := json.Marshal(got["matches"]); string(text) != "[]" {
		t.Errorf("in a comment: %s", text)
	}
}

// The three statuses of a console, with the indent of an unfinished cell.
func TestEngineIsComplete(t *testing.T) {
	t.Parallel()
	p := startEngine(t)
	for code, want := range map[string]string{
		"x := 3V":         "complete <nil>",
		"x := 3V +":       "incomplete \t",
		"for {\n\tif a {": "incomplete \t\t",
		"x := 10k":        "invalid <nil>",
		"x := `text":      "incomplete ",
		"x := 5V ± ":      "incomplete \t",
		"if Ω > 1V {":     "incomplete \t",
	} {
		got := p.reply(p.sendOn(p.shell, "is_complete_request", opts{"code": code}))
		if s := fmt.Sprint(got["status"], " ", got["indent"]); s != want {
			t.Errorf("%q: %q, want %q", code, s, want)
		}
	}
}
