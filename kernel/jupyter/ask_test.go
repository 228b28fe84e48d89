package jupyter

import (
	"encoding/json"
	"fmt"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

// Positions are in code points (messaging 5.2): neither in bytes nor, as
// JavaScript would have it, in UTF-16 units.
func TestCompletePositions(t *testing.T) {
	t.Parallel()
	p := start(t, "key").client()
	for _, c := range []struct {
		code       string
		cursor     any
		start, end float64
		matches    string
	}{
		{"bur", 3, 0, 3, "[burst]"},
		{"bur", 1, 0, 1, "[big burst]"},
		{"µΩ bu", 5, 3, 5, "[burst]"},
		{"𝛀𝛀 bu", 5, 3, 5, "[burst]"}, // two UTF-16 units each
		{"Ω bur st", 4, 2, 4, "[burst]"},
		{"bur", 99, 0, 3, "[burst]"},
		{"bur", -1, 0, 0, "[echo big burst stat show set result fail sleep]"},
		{"bur", nil, 0, 3, "[burst]"},
		{"zzz", 3, 0, 3, "[]"},
	} {
		got := p.reply(p.sendOn(p.shell, "complete_request", opts{"code": c.code, "cursor_pos": c.cursor}))
		if got["cursor_start"] != c.start || got["cursor_end"] != c.end || fmt.Sprint(got["matches"]) != c.matches || got["status"] != "ok" {
			t.Errorf("%q at %v: %v", c.code, c.cursor, got)
		}
	}
}

func TestPositions(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		code := rapid.String().Draw(t, "code")
		runes := []rune(code)
		pos := rapid.IntRange(-2, len(runes)+2).Draw(t, "pos")
		clamped := max(0, min(pos, len(runes)))
		at := byteOffset(code, pos)
		if code[:at] != string(runes[:clamped]) {
			t.Fatalf("%q at %d: byte %d", code, pos, at)
		}
		if back := codePoint(code, at); back != clamped {
			t.Fatalf("%q byte %d: position %d, want %d", code, at, back, clamped)
		}
		offset := rapid.IntRange(-2, len(code)+2).Draw(t, "offset")
		if n := codePoint(code, offset); n < 0 || n > utf8.RuneCountInString(code) {
			t.Fatalf("%q byte %d: position %d", code, offset, n)
		}
	})
	if got := codePoint("aΩb", 2); got != 1 { // inside the Ω
		t.Errorf("inside a character: %d, want 1", got)
	}
}

func TestInspectAndIsComplete(t *testing.T) {
	t.Parallel()
	p := start(t, "key").client()
	got := p.reply(p.sendOn(p.shell, "inspect_request", opts{"code": "Ω echo", "cursor_pos": 3, "detail_level": 1}))
	if got["found"] != true || fmt.Sprint(got["data"]) != "map[text/plain:echo at byte 4, detail 1]" {
		t.Errorf("%v", got)
	}
	got = p.reply(p.sendOn(p.shell, "inspect_request", opts{"code": "zzz", "cursor_pos": 1, "detail_level": 0}))
	if b, _ := json.Marshal(got["data"]); got["found"] != false || got["status"] != "ok" || string(b) != "{}" {
		t.Errorf("%v", got)
	}
	for code, want := range map[string]string{"echo": "complete <nil>", "{": "incomplete \t", "}": "invalid <nil>"} {
		got := p.reply(p.sendOn(p.shell, "is_complete_request", opts{"code": code}))
		if s := fmt.Sprint(got["status"], " ", got["indent"]); s != want {
			t.Errorf("%q: %q, want %q", code, s, want)
		}
	}
}

func TestHistory(t *testing.T) {
	t.Parallel()
	p := start(t, "key").client()
	for _, code := range []string{"echo a", "result 7", "echo b", "echo a", "fail c"} {
		p.run(code)
	}
	p.run("echo hidden", opts{"store_history": false})
	p.run("echo hidden", opts{"silent": true})
	for _, c := range []struct {
		request opts
		want    string
	}{
		{opts{"hist_access_type": "tail", "n": 2}, `[[1,4,"echo a"],[1,5,"fail c"]]`},
		{opts{"hist_access_type": "tail", "n": 2, "output": true}, `[[1,4,["echo a",null]],[1,5,["fail c",null]]]`},
		{opts{"hist_access_type": "tail", "n": 0}, `[]`},
		{opts{"hist_access_type": "tail", "n": -3}, `[]`},
		{opts{"hist_access_type": "range", "session": 0, "start": 2, "stop": 4, "output": true}, `[[1,2,["result 7","7"]],[1,3,["echo b",null]]]`},
		{opts{"hist_access_type": "range", "session": 0, "start": 4, "stop": nil}, `[[1,4,"echo a"],[1,5,"fail c"]]`},
		{opts{"hist_access_type": "range", "session": -1, "start": 1, "stop": 9}, `[]`},
		{opts{"hist_access_type": "search", "pattern": "echo *", "n": 9}, `[[1,1,"echo a"],[1,3,"echo b"],[1,4,"echo a"]]`},
		{opts{"hist_access_type": "search", "pattern": "echo ?", "n": 9, "unique": true}, `[[1,3,"echo b"],[1,4,"echo a"]]`},
		{opts{"hist_access_type": "search", "pattern": "*[", "n": 9}, `[]`},
		{opts{"hist_access_type": "search", "pattern": "*", "n": 1}, `[[1,5,"fail c"]]`},
		{opts{"hist_access_type": "other"}, `[]`},
	} {
		got := p.reply(p.sendOn(p.shell, "history_request", c.request))
		if b, _ := json.Marshal(got["history"]); string(b) != c.want || got["status"] != "ok" {
			t.Errorf("%v: %s, want %s", c.request, b, c.want)
		}
	}
}

func TestHistoryIsBounded(t *testing.T) {
	t.Parallel()
	var h history
	for i := range 2 * historyEntries {
		h.add(i, "x")
	}
	if len(h.entries) != historyEntries || h.entries[0].line != historyEntries {
		t.Errorf("%d entries from %d", len(h.entries), h.entries[0].line)
	}
	big := string(make([]byte, historyBytes/2+1))
	for i := range 5 {
		h.add(i, big)
		h.result(i, "out")
	}
	if len(h.entries) != 1 || h.size != len(big)+3 {
		t.Errorf("%d entries, %d bytes", len(h.entries), h.size)
	}
}
