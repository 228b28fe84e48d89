package zmtp

import (
	"context"
	"encoding/binary"
	"io"
	"net"
	"strings"
	"testing"
	"time"
)

const patience = 5 * time.Second

func must[T any](t *testing.T) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func router(t *testing.T, opt Options) *Router {
	r := must[*Router](t)(ListenRouter("tcp://127.0.0.1:0", opt))
	t.Cleanup(func() { r.Close(0) })
	return r
}

func xpub(t *testing.T, opt Options, welcome func(string) [][]byte) *XPub {
	x := must[*XPub](t)(ListenXPub("tcp://127.0.0.1:0", opt, welcome))
	t.Cleanup(func() { x.Close(0) })
	return x
}

func rep(t *testing.T) *Rep {
	r := must[*Rep](t)(ListenRep("tcp://127.0.0.1:0", Options{}))
	t.Cleanup(func() { r.Close(0) })
	return r
}

// dialTo connects with the package's own client.
func dialTo(t *testing.T, endpoint, socketType, identity string) *Conn {
	t.Helper()
	c := must[*Conn](t)(Dial(context.Background(), endpoint, socketType, []byte(identity)))
	c.SetDeadline(time.Now().Add(patience))
	t.Cleanup(func() { c.Close() })
	return c
}

// raw is a client whose bytes the tests write by hand, after RFC 23/ZMTP, so
// that an error made twice in this package does not cancel out.
type raw struct {
	net.Conn
	t *testing.T
}

func rawTo(t *testing.T, endpoint string) raw {
	t.Helper()
	c := must[net.Conn](t)(net.Dial("tcp", strings.TrimPrefix(endpoint, "tcp://")))
	c.SetDeadline(time.Now().Add(patience))
	t.Cleanup(func() { c.Close() })
	return raw{c, t}
}

// greetingBytes: signature FF 00×8 7F, version 3.0, mechanism in 20 bytes,
// as-server 0, filler 31 bytes.
func greetingBytes(major byte, mechanism string) string {
	return "\xff" + strings.Repeat("\x00", 8) + "\x7f" + string([]byte{major, 0}) +
		mechanism + strings.Repeat("\x00", 20-len(mechanism)) + strings.Repeat("\x00", 32)
}

// readyBytes: command frame, name READY, properties.
func readyBytes(socketType, identity string) string {
	prop := func(name, value string) string {
		n := binary.BigEndian.AppendUint32(nil, uint32(len(value)))
		return string([]byte{byte(len(name))}) + name + string(n) + value
	}
	body := "\x05READY" + prop("Socket-Type", socketType) + prop("Identity", identity)
	return string([]byte{4, byte(len(body))}) + body
}

func (c raw) say(s string) {
	c.t.Helper()
	if _, err := io.WriteString(c, s); err != nil {
		c.t.Fatal(err)
	}
}

func (c raw) hear(n int) string {
	c.t.Helper()
	b := make([]byte, n)
	if _, err := io.ReadFull(c, b); err != nil {
		c.t.Fatal(err)
	}
	return string(b)
}

// expect hears exactly these bytes.
func (c raw) expect(want string) {
	c.t.Helper()
	if got := c.hear(len(want)); got != want {
		c.t.Fatalf("heard %q, want %q", got, want)
	}
}

// expectCut hears nothing more but the end of the connection.
func (c raw) expectCut(why string) {
	c.t.Helper()
	got, err := io.ReadAll(c)
	if ne, ok := err.(net.Error); ok && ne.Timeout() {
		c.t.Fatalf("%s: connection stays open", why)
	}
	if len(got) > 200 {
		c.t.Fatalf("%s: heard %d bytes", why, len(got))
	}
}

// shaken is a raw client after a handshake.
func shaken(t *testing.T, endpoint, socketType, identity string) raw {
	t.Helper()
	c := rawTo(t, endpoint)
	c.say(greetingBytes(3, "NULL") + readyBytes(socketType, identity))
	c.hear(64)
	c.hear(int(c.hear(2)[1]))
	return c
}

// eventually waits for something that another goroutine does.
func eventually(t *testing.T, what string, ok func() bool) {
	t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(time.Millisecond) {
		if ok() {
			return
		}
	}
	t.Fatalf("never: %s", what)
}

func (s *socket) peers() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return len(s.conns)
}
