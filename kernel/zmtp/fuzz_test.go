package zmtp

import (
	"bufio"
	"bytes"
	"io"
	"net"
	"testing"
	"time"
)

// player is a connection whose other side has said everything already.
type player struct{ *bytes.Reader }

func (player) Write(b []byte) (int, error)      { return len(b), nil }
func (player) Close() error                     { return nil }
func (player) LocalAddr() net.Addr              { return nil }
func (player) RemoteAddr() net.Addr             { return nil }
func (player) SetDeadline(time.Time) error      { return nil }
func (player) SetReadDeadline(time.Time) error  { return nil }
func (player) SetWriteDeadline(time.Time) error { return nil }

// FuzzPeer plays any bytes to a handshake and the reader behind it. Whatever
// they are: no panic, an end, and no message over the limits.
func FuzzPeer(f *testing.F) {
	greet := greetingBytes(3, "NULL")
	ready := readyBytes("DEALER", "me")
	for _, seed := range []string{
		"", greet, greet + ready,
		greet + ready + "\x01\x01a\x00\x01b",
		greet + ready + "\x04\x0a\x04PING\x00\x64abc" + "\x00\x00",
		greet + ready + "\x02\x40\x00\x00\x00\x00\x00\x00\x00xx",
		greet + ready + "\x04\x0c\x09SUBSCRIBEcd" + "\x00\x02\x01x" + "\x00\x02\x00x",
		greet + "\x04\x09\x05ERROR\x02no",
	} {
		f.Add([]byte(seed))
	}
	opt := Options{MaxFrame: 1000, MaxMessage: 4000}.withDefaults()
	f.Fuzz(func(t *testing.T, said []byte) {
		conn := player{bytes.NewReader(said)}
		r := bufio.NewReader(conn)
		if h, err := shakeHands(r, io.Discard, hello{socketType: "ROUTER"}); err != nil {
			return
		} else if h.socketType == "" || len(h.identity) > 255 {
			t.Fatalf("hello %+v", h)
		}
		p := newPeer(conn, r, 1<<20)
		x := &XPub{welcome: func(string) [][]byte { return [][]byte{{}} }}
		err := p.read(opt, func(frames [][]byte, size int) error {
			total := 0
			for _, b := range frames {
				if total += len(b); len(b) > opt.MaxFrame {
					t.Fatalf("frame of %d bytes", len(b))
				}
			}
			if len(frames) == 0 || total > opt.MaxMessage {
				t.Fatalf("message of %d frames, %d bytes", len(frames), total)
			}
			return x.subscription(p, frames)
		})
		if err == nil {
			t.Fatal("the reader ended without a reason")
		}
	})
}

// FuzzFrame: what is read and packed again is the same frame.
func FuzzFrame(f *testing.F) {
	for _, seed := range []string{"\x00\x02hi", "\x01\x00", "\x02\x00\x00\x00\x00\x00\x00\x00\x01x", "\x04\x01\x00", "\xff\xff"} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		a, err := readFrame(bufio.NewReader(bytes.NewReader(b)), 1<<16)
		if err != nil {
			return
		}
		again := append(appendHead(nil, a.flags&^flagLong, len(a.body)), a.body...)
		c, err := readFrame(bufio.NewReader(bytes.NewReader(again)), 1<<16)
		if err != nil || !bytes.Equal(a.body, c.body) || a.flags&^flagLong != c.flags&^flagLong {
			t.Fatalf("%q became %q (%v)", a.body, c.body, err)
		}
	})
}
