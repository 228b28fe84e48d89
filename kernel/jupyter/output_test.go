package jupyter

import (
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"pgregory.net/rapid"
)

// A burst of small prints comes whole, in order, and in few messages.
func TestStreamIsJoined(t *testing.T) {
	t.Parallel()
	p := start(t, "key").client()
	_, shown := p.run("burst 20000")
	var text strings.Builder
	pieces := 0
	for _, s := range shown {
		if rest, ok := strings.CutPrefix(s, "stream stdout "); ok {
			text.WriteString(rest)
			pieces++
		}
	}
	lines := strings.Split(strings.TrimSuffix(text.String(), "\n"), "\n")
	if len(lines) != 20000 || lines[0] != "0" || lines[19999] != "19999" {
		t.Errorf("%d lines came", len(lines))
	}
	if pieces > 40 { // 108,890 bytes in pieces of 8 kB are 14
		t.Errorf("%d messages", pieces)
	}
}

// What a running cell prints is seen while it runs.
func TestStreamDoesNotWaitForTheEnd(t *testing.T) {
	t.Parallel()
	p := start(t, "key").client()
	a := p.execute("echo now\nsleep 60000")
	waitInput(p, a)
	began := time.Now()
	if m := p.next(p.iopub); p.short(m) != "stream stdout now\n" {
		t.Errorf("got %s", p.short(m))
	}
	if d := time.Since(began); d > time.Second {
		t.Errorf("it came after %v", d)
	}
	p.sendOn(p.control, "interrupt_request", struct{}{})
	p.reply(a)
}

// A character cut in two by a Print or a full buffer is not torn.
func TestWholeRunes(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		cut := rapid.IntRange(0, len(text)).Draw(t, "cut")
		n := wholeRunes([]byte(text[:cut]))
		if !utf8.ValidString(text[:n]) || cut-n > 3 || n == cut-utf8.UTFMax {
			t.Fatalf("%q cut at %d: %d", text, cut, n)
		}
		if utf8.ValidString(text[:cut]) && n != cut {
			t.Fatalf("%q cut at %d, between characters: %d", text, cut, n)
		}
	})
	for text, want := range map[string]int{"": 0, "a\xff": 2, "\xff\xff\xff\xff": 4, "\x80\x80": 2, "aΩ\xce": 3, "\xf0\x9f\x98": 0} {
		if got := wholeRunes([]byte(text)); got != want {
			t.Errorf("%q: %d, want %d", text, got, want)
		}
	}
}

// An Output that a Core keeps and uses late does nothing: what it would show
// has no cell to go to.
func TestOutputAfterTheEnd(t *testing.T) {
	t.Parallel()
	o := &output{closed: true}
	o.Stream("stdout", "late")
	o.DisplayData(Bundle{"text/plain": "late"}, nil, "")
	o.ClearOutput(false)
	o.late()
	if e := o.finish(nil); e != nil {
		t.Error(e)
	}
}
