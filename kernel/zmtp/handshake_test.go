package zmtp

import (
	"strings"
	"testing"
	"time"
)

// The bytes are written out after RFC 23/ZMTP 3.0.
func TestHandshakeOnTheWire(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		endpoint         string
		own, peer, ready string
	}{
		{router(t, Options{}).Endpoint(), "ROUTER", "DEALER",
			"\x04\x29\x05READY\x0bSocket-Type\x00\x00\x00\x06ROUTER\x08Identity\x00\x00\x00\x00"},
		{xpub(t, Options{}, nil).Endpoint(), "XPUB", "SUB",
			"\x04\x1a\x05READY\x0bSocket-Type\x00\x00\x00\x04XPUB"},
		{rep(t).Endpoint(), "REP", "REQ",
			"\x04\x19\x05READY\x0bSocket-Type\x00\x00\x00\x03REP"},
	} {
		r := rawTo(t, c.endpoint)
		// byte by byte: nothing may depend on how TCP cuts the stream
		for _, b := range []byte(greetingBytes(3, "NULL") + readyBytes(c.peer, "me")) {
			r.say(string([]byte{b}))
		}
		r.expect(greetingBytes(3, "NULL"))
		r.expect(c.ready)
	}
}

func TestHandshakeRefuses(t *testing.T) {
	t.Parallel()
	hello := greetingBytes(3, "NULL")
	for name, say := range map[string]string{
		"a browser":                             "GET / HTTP/1.1\r\nHost: localhost\r\n\r\n" + strings.Repeat("x", 100),
		"ZMTP 1.0":                              "\x01\x00" + strings.Repeat("\x00", 70),
		"ZMTP 2.0":                              greetingBytes(1, "NULL"),
		"another mechanism":                     greetingBytes(3, "PLAIN"),
		"NULL with a tail":                      greetingBytes(3, "NULLO"),
		"a message before READY":                hello + "\x00\x02hi",
		"another command":                       hello + "\x04\x06\x05HELLO",
		"an empty command":                      hello + "\x04\x00",
		"ERROR":                                 hello + "\x04\x09\x05ERROR\x02no",
		"a command name too long for its frame": hello + "\x04\x03\x09RE",
		"no socket type":                        hello + "\x04\x06\x05READY",
		"the wrong socket type":                 hello + readyBytes("SUB", ""),
		"a property too long":                   hello + "\x04\x16\x05READY\x0bSocket-Type\xff\xff\xff\xff",
		"a property without name":               hello + "\x04\x0b\x05READY\x00\x00\x00\x00\x00",
		"READY of 2^40 bytes":                   hello + "\x06\x00\x00\x01\x00\x00\x00\x00\x00",
		"reserved flags":                        hello + "\x84\x06\x05READY",
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			r := router(t, Options{Handshake: time.Minute})
			c := rawTo(t, r.Endpoint())
			c.say(say)
			c.expectCut(name)
			eventually(t, "connection forgotten", func() bool { return r.peers() == 0 })
			// and the next one is served
			d := dialTo(t, r.Endpoint(), "DEALER", "next")
			d.Send([]byte("hi"))
			must[Message](t)(r.Recv())
		})
	}
}

// go-zeromq/zmq4 v0.17.0 does the handshake in its accept loop: one silent
// connection keeps every other client out.
func TestSilentConnectionKeepsNobodyOut(t *testing.T) {
	t.Parallel()
	r := router(t, Options{Handshake: 300 * time.Millisecond})
	silent := rawTo(t, r.Endpoint())
	half := rawTo(t, r.Endpoint())
	half.say(greetingBytes(3, "NULL")[:30])
	c := dialTo(t, r.Endpoint(), "DEALER", "b")
	c.Send([]byte("hi"))
	must[Message](t)(r.Recv())
	silent.expectCut("silent connection")
	half.expectCut("half a greeting")
}

func TestIdentities(t *testing.T) {
	t.Parallel()
	r := router(t, Options{})
	seen := map[string]bool{}
	for _, id := range []string{"", "", "\x00mine", "abc", strings.Repeat("i", 255)} {
		c := dialTo(t, r.Endpoint(), "DEALER", id)
		c.Send([]byte("hi"))
		m := must[Message](t)(r.Recv())
		got := string(m.Identity)
		if given := id != "" && id[0] != 0; given && got != id || !given && (len(got) != 5 || got[0] != 0) {
			t.Errorf("identity %q became %q", id, got)
		}
		if seen[got] {
			t.Errorf("identity %q was given twice", got)
		}
		seen[got] = true
	}
	c := rawTo(t, r.Endpoint())
	c.say(greetingBytes(3, "NULL") + readyLong(strings.Repeat("i", 256)))
	c.expectCut("an identity of 256 bytes")
}

func readyLong(identity string) string {
	body := readyBytes("DEALER", identity)[2:]
	return "\x06" + string([]byte{0, 0, 0, 0, 0, 0, byte(len(body) >> 8), byte(len(body))}) + body
}
