package jupyter

import (
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// sign puts the right signature into frames that a test has made or changed.
func sign(w *wire, frames [][]byte) {
	n := len(frames)
	frames[n-5] = []byte(hex.EncodeToString(w.mac(frames[n-4:]...)))
}

func message(parts ...string) [][]byte {
	var frames [][]byte
	for _, p := range parts {
		frames = append(frames, []byte(p))
	}
	return frames
}

const goodHeader = `{"msg_id":"1","session":"s","msg_type":"kernel_info_request"}`

// The signature was computed with Python's hmac and hashlib (sha256, update
// with each of the four frames).
func TestSignatureOfAnotherProgram(t *testing.T) {
	t.Parallel()
	w := newWire("a0436f6c-1916-498b-8eb9-e81ab9368e84")
	frames := message("route", "<IDS|MSG>", "SIGNATURE", goodHeader, "{}", "{}", "{}")
	frames[2] = []byte(knownSignature)
	r, err := w.parse(frames)
	if err != nil {
		t.Fatal(err)
	}
	if r.id != "1" || r.kind != "kernel_info_request" || r.session != "s" || string(r.header) != goodHeader ||
		len(r.identities) != 1 || string(r.identities[0]) != "route" {
		t.Errorf("%+v", r)
	}
	if _, err := w.parse(frames); err != errReplayed {
		t.Errorf("the second time: %v", err)
	}
	frames[2] = []byte(strings.ToUpper(knownSignature)) // the same bytes, so a replay too
	if _, err := w.parse(frames); err != errReplayed {
		t.Errorf("in capitals: %v", err)
	}
}

func TestParseRefuses(t *testing.T) {
	t.Parallel()
	w := newWire("key")
	for name, c := range map[string]struct {
		frames [][]byte
		want   string
	}{
		"nothing":              {nil, "no <IDS|MSG>"},
		"no delimiter":         {message("a", "b", "c", "d", "e", "f"), "no <IDS|MSG>"},
		"delimiter only":       {message("<IDS|MSG>"), "fewer than"},
		"four frames":          {message("<IDS|MSG>", "", goodHeader, "{}", "{}"), "fewer than"},
		"no signature":         {message("<IDS|MSG>", "", goodHeader, "{}", "{}", "{}"), "wrong signature"},
		"signature not hex":    {message("<IDS|MSG>", strings.Repeat("z", 64), goodHeader, "{}", "{}", "{}"), "wrong signature"},
		"signature too short":  {message("<IDS|MSG>", strings.Repeat("0", 62), goodHeader, "{}", "{}", "{}"), "wrong signature"},
		"signature odd":        {message("<IDS|MSG>", strings.Repeat("0", 63), goodHeader, "{}", "{}", "{}"), "wrong signature"},
		"signature too long":   {message("<IDS|MSG>", strings.Repeat("0", 66), goodHeader, "{}", "{}", "{}"), "wrong signature"},
		"signature of zeros":   {message("<IDS|MSG>", strings.Repeat("0", 64), goodHeader, "{}", "{}", "{}"), "wrong signature"},
		"header not JSON":      {signed(w, `{"msg_id":`, "{}", "{}", "{}"), "header is not a JSON object"},
		"header a list":        {signed(w, `[1]`, "{}", "{}", "{}"), "header is not a JSON object"},
		"header empty":         {signed(w, ``, "{}", "{}", "{}"), "header is not a JSON object"},
		"header without id":    {signed(w, `{"msg_type":"x"}`, "{}", "{}", "{}"), "names no msg_id"},
		"header without type":  {signed(w, `{"msg_id":"x"}`, "{}", "{}", "{}"), "names no msg_id"},
		"type a number":        {signed(w, `{"msg_id":"x","msg_type":5}`, "{}", "{}", "{}"), "names no msg_id"},
		"header not UTF-8":     {signed(w, "{\"msg_id\":\"\xff\",\"msg_type\":\"x\"}", "{}", "{}", "{}"), "not a JSON object"},
		"parent not an object": {signed(w, goodHeader, "null", "{}", "{}"), "parent header is not"},
		"metadata a number":    {signed(w, goodHeader, "{}", "1", "{}"), "metadata is not"},
		"content cut off":      {signed(w, goodHeader, "{}", "{}", `{"code":"`), "content is not"},
		"content with a tail":  {signed(w, goodHeader, "{}", "{}", `{} {}`), "content is not"},
		"content very deep":    {signed(w, goodHeader, "{}", "{}", `{"a":`+strings.Repeat("[", 100000)), "content is not"},
	} {
		if _, err := w.parse(c.frames); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want one that says %q", name, err, c.want)
		}
	}
}

func signed(w *wire, header, parent, metadata, content string) [][]byte {
	frames := message("<IDS|MSG>", "", header, parent, metadata, content)
	sign(w, frames)
	return frames
}

// Any change of any signed byte is noticed.
func TestChangedMessage(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		w := newWire("key")
		frames := signed(w, goodHeader, "{}", `{"a":1}`, `{"code":"x"}`)
		i := rapid.IntRange(1, 5).Draw(t, "frame")
		at := rapid.IntRange(0, len(frames[i])-1).Draw(t, "byte")
		bit := byte(1) << rapid.IntRange(0, 7).Draw(t, "bit")
		if i == 1 && bit == 0x20 && frames[1][at] > '9' {
			t.Skip("only the case of a hex digit")
		}
		frames[i][at] ^= bit
		if _, err := w.parse(frames); err != errSignature {
			t.Fatalf("frame %d byte %d bit %#x: %v", i, at, bit, err)
		}
	})
}

func TestBuiltMessageParses(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		key := rapid.SampledFrom([]string{"", "key"}).Draw(t, "key")
		sender, receiver := newWire(key), newWire(key)
		text := rapid.String().Draw(t, "text")
		kind := rapid.StringMatching(`[a-z_]{1,20}`).Draw(t, "kind")
		frames, err := sender.build([][]byte{[]byte("a"), []byte("b")}, kind, json.RawMessage(goodHeader), map[string]any{"text": text})
		if err != nil {
			t.Fatal(err)
		}
		if signed := len(frames[3]) == 64; signed != (key != "") || len(frames) != 8 {
			t.Fatalf("%q", frames)
		}
		r, err := receiver.parse(frames)
		if err != nil {
			t.Fatal(err)
		}
		var c struct{ Text string }
		if err := json.Unmarshal(r.content, &c); err != nil || c.Text != strings.ToValidUTF8(text, "\ufffd") {
			t.Fatalf("%q became %q (%v)", text, c.Text, err)
		}
		if r.kind != kind || r.session != sender.session || len(r.identities) != 2 || string(frames[5]) != goodHeader {
			t.Fatalf("%+v", r)
		}
		var h struct{ Date, Version, Username string }
		json.Unmarshal(r.header, &h)
		if d, err := time.Parse(time.RFC3339Nano, h.Date); err != nil || time.Since(d) > time.Minute || h.Version != "5.5" || h.Username == "" {
			t.Fatalf("header %s", r.header)
		}
	})
}

func TestMessageIDsAreNew(t *testing.T) {
	t.Parallel()
	w := newWire("")
	seen := map[string]bool{}
	for range 100 {
		frames, err := w.build(nil, "status", nil, struct{}{})
		if err != nil {
			t.Fatal(err)
		}
		var h header
		json.Unmarshal(frames[2], &h)
		if seen[h.ID] || h.ID == "" {
			t.Fatalf("id %q again", h.ID)
		}
		seen[h.ID] = true
	}
}

func TestReplayGuardForgetsTheOldest(t *testing.T) {
	t.Parallel()
	g := replayGuard{size: 10}
	sum := func(i int) (s [32]byte) { copy(s[:], fmt.Sprint(i)); return s }
	for i := range 1000 {
		if !g.first(sum(i)) {
			t.Fatalf("%d was never seen", i)
		}
		for back := 0; back <= 10 && back <= i; back++ {
			if g.first(sum(i - back)) {
				t.Fatalf("%d forgotten after %d more", i-back, back)
			}
		}
		if n := len(g.now) + len(g.old); n > 20 {
			t.Fatalf("%d remembered", n)
		}
	}
}

// Whatever comes, signed or not, the kernel goes on.
func TestBadMessagesDoNotMatter(t *testing.T) {
	t.Parallel()
	k := start(t, "key")
	p := k.client()
	w := newWire("key")
	ping := signed(w, goodHeader, "{}", "{}", "{}")
	bad := [][][]byte{
		{}, message(""), message("x"), message("<IDS|MSG>"), make([][]byte, 5000),
		message("<IDS|MSG>", "", "{}", "{}", "{}", "{}"),
		message("<IDS|MSG>", "sig", "{}", "{}", "{}", "{}"),
		message("<IDS|MSG>", "", "\xff\xfe", "{", "[]", "1"),
		signed(w, `{"msg_id":"x","msg_type":5}`, "{}", "{}", "{}"),
		signed(w, `{"msg_id":"x","msg_type":"execute_request"}`, "{}", "{}", `{"code":{}}`),
		signed(w, `{"msg_id":"x","msg_type":"execute_request"}`, "{}", `{"cellId":[]}`, `{}`),
		signed(w, `{"msg_id":"x","msg_type":"_request"}`, "{}", "{}", "{}"),
		signed(newWire("other key"), goodHeader, "{}", "{}", "{}"),
		message("<IDS|MSG>", strings.Repeat("0", 64), "{}", "{}", "{}", strings.Repeat(" ", 5_000_000)),
	}
	for _, c := range []struct {
		name string
		send func(...[]byte) error
	}{{"shell", p.shell.Send}, {"control", p.control.Send}} {
		for i, frames := range bad {
			if err := c.send(frames...); err != nil {
				t.Fatalf("%s message %d: %v", c.name, i, err)
			}
		}
	}
	p.shell.Send(ping...)
	p.shell.Send(ping...) // replayed
	if m := p.next(p.shell); m.kind != "execute_reply" && m.kind != "kernel_info_reply" {
		t.Errorf("got %s", m.kind)
	}
	got, shown := p.run("echo")
	p.wantStatus(got, "ok")
	sameLines(t, "afterwards", shown, []string{"busy", "input echo", "stream stdout ok\n", "idle"})
	p.wantStatus(p.reply(p.sendOn(p.control, "kernel_info_request", struct{}{})), "ok")
}

func TestReplayedRequestIsNotAnswered(t *testing.T) {
	t.Parallel()
	p := start(t, "key").client()
	frames := signed(p.wire, goodHeader, "{}", "{}", "{}")
	p.shell.Send(frames...)
	if m := p.next(p.shell); m.parent != "1" {
		t.Errorf("answer to %q", m.parent)
	}
	p.shell.Send(frames...)
	p.quiet(p.shell)
}

// Fields of the header that only newer clients send, or that are missing with
// older ones, do not matter: subshell_id (5.5) names a subshell only where the
// kernel announced them, and date became mandatory with 5.1.
func TestHeadersOfOtherVersions(t *testing.T) {
	t.Parallel()
	p := start(t, "key").client()
	for _, header := range []string{
		`{"msg_id":"a","msg_type":"kernel_info_request","session":"s","username":"u","date":"2026-01-02T03:04:05Z","version":"5.5","subshell_id":null}`,
		`{"msg_id":"b","msg_type":"kernel_info_request","session":"s","username":"u","date":"2026-01-02T03:04:05Z","version":"5.6","subshell_id":"x"}`,
		`{"msg_id":"c","msg_type":"kernel_info_request","session":"s","username":"u","version":"5.0"}`,
		`{"msg_id":"d","msg_type":"kernel_info_request","session":5,"username":null,"version":[],"date":{}}`,
		`{"msg_id":"e","msg_type":"kernel_info_request"}`,
	} {
		p.shell.Send(signed(p.wire, header, "{}", "{}", "{}")...)
		if m := p.next(p.shell); m.kind != "kernel_info_reply" || string(m.ofAsker) != header {
			t.Errorf("%s: %s of %s", header, m.kind, m.ofAsker)
		}
	}
}

func TestUnsignedKernel(t *testing.T) {
	t.Parallel()
	p := start(t, "").client()
	got, _ := p.run("echo")
	p.wantStatus(got, "ok")
	p.shell.Send(message("<IDS|MSG>", "any", goodHeader, "{}", "{}", "{}")...)
	if m := p.next(p.shell); m.parent != "1" {
		t.Errorf("answer to %q", m.parent)
	}
}

// The frames before the delimiter come back as they were: a request may have
// come through another router.
func TestIdentitiesComeBack(t *testing.T) {
	t.Parallel()
	p := start(t, "key").client()
	frames := append(message("via", ""), signed(p.wire, goodHeader, "{}", "{}", "{}")...)
	p.shell.Send(frames...)
	got, err := p.shell.Recv()
	if err != nil || len(got) != 8 || string(got[0]) != "via" || len(got[1]) != 0 || string(got[2]) != "<IDS|MSG>" {
		t.Errorf("%q %v", got, err)
	}
	if string(got[5]) != goodHeader {
		t.Errorf("parent header %s", got[5])
	}
}

// FuzzParse: any frames, cut from the input at the byte 0x1e. Without a key
// everything but the JSON is accepted, with one nothing is.
func FuzzParse(f *testing.F) {
	f.Add([]byte("route\x1e<IDS|MSG>\x1e\x1e" + goodHeader + "\x1e{}\x1e{}\x1e{}"))
	f.Add([]byte("<IDS|MSG>\x1e" + knownSignature + "\x1e" + goodHeader + "\x1e{}\x1e{}\x1e{\"code\":\"Ω\"}\x1ebuffer"))
	f.Add([]byte("<IDS|MSG>\x1e\x1e[]\x1e\x1e1\x1enull"))
	f.Fuzz(func(t *testing.T, in []byte) {
		frames := message(strings.Split(string(in), "\x1e")...)
		if _, err := newWire("key").parse(frames); err == nil {
			t.Fatal("a signature was guessed")
		} else if !errors.Is(err, errNoDelimiter) && !errors.Is(err, errFewFrames) && !errors.Is(err, errSignature) {
			t.Fatalf("looked at before its signature was: %v", err)
		}
		r, err := newWire("").parse(frames)
		if err != nil {
			return
		}
		if r.id == "" || r.kind == "" || !json.Valid(r.content) || !json.Valid(r.metadata) {
			t.Fatalf("%+v", r)
		}
		cellIDs(r.metadata)
		var c executeContent
		r.decode(&c)
	})
}

const knownSignature = "44a5ec353b478598ce89033ba088f3999c9ad4fd556e74121ee62c569f119635"
