package zmtp

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func TestRouterRepliesToTheAsker(t *testing.T) {
	t.Parallel()
	r := router(t, Options{})
	a, b := dialTo(t, r.Endpoint(), "DEALER", "a"), dialTo(t, r.Endpoint(), "DEALER", "b")
	const n = 200
	go func() {
		for range 2 * n {
			m, err := r.Recv()
			if err != nil {
				return
			}
			r.Send(m.Identity, append([][]byte{m.Identity}, m.Frames...)...)
		}
	}()
	for i := range n {
		a.Send([]byte("from a"), []byte{byte(i)})
		b.Send([]byte("from b"), []byte{byte(i)})
	}
	for i := range n {
		for name, c := range map[string]*Conn{"a": a, "b": b} {
			got := must[[][]byte](t)(c.Recv())
			if want := bytesOf([]string{name, "from " + name, string([]byte{byte(i)})}); !equal(got, want) {
				t.Fatalf("%s got %q, want %q", name, got, want)
			}
		}
	}
	r.Send([]byte("nobody"), []byte("lost")) // must not panic or block
}

func equal(a, b [][]byte) bool {
	return bytes.Equal(bytes.Join(a, []byte{0}), bytes.Join(b, []byte{0})) && len(a) == len(b)
}

func TestBigMessageBothWays(t *testing.T) {
	t.Parallel()
	r := router(t, Options{})
	c := dialTo(t, r.Endpoint(), "DEALER", "a")
	big := bytes.Repeat([]byte("0123456789"), 1_000_000)
	go func() {
		if m, err := r.Recv(); err == nil {
			r.Send(m.Identity, m.Frames...)
		}
	}()
	if err := c.Send(big, nil, big); err != nil {
		t.Fatal(err)
	}
	if got := must[[][]byte](t)(c.Recv()); !equal(got, [][]byte{big, nil, big}) {
		t.Error("10 MB came back changed")
	}
}

func TestLimits(t *testing.T) {
	t.Parallel()
	for name, say := range map[string]string{
		"frame too long":       "\x02\x00\x00\x00\x00\x00\x00\x03\xe9" + strings.Repeat("x", 1001),
		"frame of 2^62":        "\x02\x40\x00\x00\x00\x00\x00\x00\x00xx",
		"message too long":     strings.Repeat("\x01\xc8"+strings.Repeat("x", 200), 10),
		"many empty frames":    strings.Repeat("\x01\x00", 100),
		"command with more":    "\x05\x05\x04PING",
		"PING too short":       "\x04\x06\x04PING\x00",
		"PING too long":        "\x04\x1a\x04PING\x00\x00" + strings.Repeat("c", 19),
		"command without name": "\x04\x00",
		"reserved flag":        "\x10\x00",
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			r := router(t, Options{MaxFrame: 1000, MaxMessage: 2000})
			c := shaken(t, r.Endpoint(), "DEALER", "evil")
			io.WriteString(c, say) // the server may cut before all is said
			c.expectCut(name)
			d := dialTo(t, r.Endpoint(), "DEALER", "good")
			d.Send(make([]byte, 1000), make([]byte, 800))
			if m := must[Message](t)(r.Recv()); string(m.Identity) != "good" {
				t.Errorf("got a message of %q", m.Identity)
			}
		})
	}
}

// The limit is for one message, not for all of a connection.
func TestLimitIsForEachMessage(t *testing.T) {
	t.Parallel()
	r := router(t, Options{MaxMessage: 2000})
	c := dialTo(t, r.Endpoint(), "DEALER", "a")
	for range 10 {
		c.Send(make([]byte, 900), make([]byte, 900))
		must[Message](t)(r.Recv())
	}
}

func TestHandover(t *testing.T) {
	t.Parallel()
	r := router(t, Options{})
	hear := func() {
		t.Helper()
		m := must[Message](t)(r.Recv())
		r.Send(m.Identity, m.Frames...)
	}
	older := dialTo(t, r.Endpoint(), "DEALER", "same")
	older.Send([]byte("1"))
	hear()
	must[[][]byte](t)(older.Recv())
	newer := dialTo(t, r.Endpoint(), "DEALER", "same")
	newer.Send([]byte("2"))
	hear()
	if got := must[[][]byte](t)(newer.Recv()); string(got[0]) != "2" {
		t.Errorf("newer got %q", got)
	}
	older.SetDeadline(time.Now().Add(50 * time.Millisecond))
	if got, err := older.Recv(); err == nil {
		t.Errorf("older got a copy: %q", got)
	}
	newer.Close()
	eventually(t, "newer is forgotten", func() bool { return r.peers() == 1 })
	older.SetDeadline(time.Now().Add(patience))
	older.Send([]byte("3"))
	hear()
	if got := must[[][]byte](t)(older.Recv()); string(got[0]) != "3" {
		t.Errorf("older got %q", got)
	}
}

// A PING carries two bytes of time to live and a context; PONG the context
// (RFC 37, section "Connection heartbeating").
func TestPing(t *testing.T) {
	t.Parallel()
	r := router(t, Options{})
	c := shaken(t, r.Endpoint(), "DEALER", "a")
	c.say("\x04\x0a\x04PING\x00\x64abc")
	c.expect("\x04\x08\x04PONGabc")
	c.say("\x01\x01a" + "\x04\x07\x04PING\x00\x64" + "\x00\x01b") // between two frames, as libzmq may
	c.expect("\x04\x05\x04PONG")
	c.say("\x04\x09\x08WHATEVER") // unknown: ignored
	if m := must[Message](t)(r.Recv()); !equal(m.Frames, bytesOf([]string{"a", "b"})) {
		t.Errorf("got %q", m.Frames)
	}
}

func TestRep(t *testing.T) {
	t.Parallel()
	s := rep(t)
	go func() {
		for {
			m, err := s.Recv()
			if err != nil {
				return
			}
			s.Reply(m, m.Frames...)
		}
	}()
	gone := shaken(t, s.Endpoint(), "REQ", "")
	gone.say("\x01\x00\x00\x03bye")
	gone.Close()
	c := shaken(t, s.Endpoint(), "REQ", "")
	c.say("\x00\x04lost") // no envelope
	c.say("\x01\x00\x00\x02hi")
	c.expect("\x01\x00\x00\x02hi")
	c.say("\x01\x02r1\x01\x00\x01\x01a\x00\x01b") // through a ROUTER: an address first
	c.expect("\x01\x02r1\x01\x00\x01\x01a\x00\x01b")
}

func TestXPub(t *testing.T) {
	t.Parallel()
	x := xpub(t, Options{}, func(topic string) [][]byte { return bytesOf([]string{topic, "welcome"}) })
	c := shaken(t, x.Endpoint(), "SUB", "")
	c.say("\x00\x05\x00none") // cancels what was never asked for
	c.say("\x00\x03\x01ab")
	c.expect("\x01\x02ab\x00\x07welcome")
	c.say("\x04\x0c\x09SUBSCRIBEcd") // ZMTP 3.1
	c.expect("\x01\x02cd\x00\x07welcome")
	for _, topic := range []string{"a", "ab", "abc", "b", "cde"} {
		x.Publish([]byte(topic), []byte("!"))
	}
	c.expect("\x01\x02ab\x00\x01!" + "\x01\x03abc\x00\x01!" + "\x01\x03cde\x00\x01!")
	c.say("\x00\x03\x01ab" + "\x00\x03\x00ab") // twice, then once less: still subscribed
	c.expect("\x01\x02ab\x00\x07welcome")
	c.say("\x04\x09\x06CANCELcd")
	c.say("\x00\x02\x01z")
	c.expect("\x01\x01z\x00\x07welcome") // so the commands before were taken
	x.Publish([]byte("cd"))
	x.Publish([]byte("ab"))
	c.expect("\x00\x02ab")
	x.Publish() // nothing, to nobody
}

func TestTooManySubscriptions(t *testing.T) {
	t.Parallel()
	x := xpub(t, Options{}, nil)
	c := shaken(t, x.Endpoint(), "SUB", "")
	var all strings.Builder
	for i := range maxTopics + 1 {
		fmt.Fprintf(&all, "\x00\x05\x01%04d", i)
	}
	io.WriteString(c, all.String())
	c.expectCut("too many subscriptions")
}

// go-zeromq/zmq4 v0.17.0 has one writer for all subscribers: one that stops
// reading stops iopub for everybody.
func TestStuckSubscriberIsCutAndDelaysNobody(t *testing.T) {
	t.Parallel()
	x := xpub(t, Options{QueueOut: 1 << 20}, func(string) [][]byte { return bytesOf([]string{"w"}) })
	stuck := shaken(t, x.Endpoint(), "SUB", "")
	stuck.say("\x00\x01\x01")
	stuck.expect("\x00\x01w")
	c := dialTo(t, x.Endpoint(), "SUB", "")
	c.Subscribe("")
	must[[][]byte](t)(c.Recv())
	body := make([]byte, 100_000)
	for i := range 300 { // 30 MB: more than the limit and what TCP holds
		x.Publish([]byte{byte(i)}, body)
		if got := must[[][]byte](t)(c.Recv()); got[0][0] != byte(i) || len(got[1]) != len(body) {
			t.Fatalf("message %d came wrong", i)
		}
	}
	eventually(t, "the stuck one is cut", func() bool { return x.peers() == 1 })
}

func TestOneMessageMayBeLongerThanTheQueue(t *testing.T) {
	t.Parallel()
	r := router(t, Options{QueueOut: 1000})
	c := dialTo(t, r.Endpoint(), "DEALER", "a")
	c.Send([]byte("hi"))
	must[Message](t)(r.Recv())
	r.Send([]byte("a"), make([]byte, 5_000_000))
	if got := must[[][]byte](t)(c.Recv()); len(got[0]) != 5_000_000 {
		t.Errorf("%d bytes came", len(got[0]))
	}
}

// A full inbox makes the sender wait; nothing is lost and nothing grows.
func TestFullInbox(t *testing.T) {
	t.Parallel()
	r := router(t, Options{QueueIn: 10_000})
	c := dialTo(t, r.Endpoint(), "DEALER", "a")
	const n = 3000
	go func() {
		for i := range n {
			c.Send(fmt.Appendf(nil, "%d", i), make([]byte, 2000))
		}
	}()
	time.Sleep(20 * time.Millisecond)
	for i := range n {
		m := must[Message](t)(r.Recv())
		if string(m.Frames[0]) != fmt.Sprint(i) {
			t.Fatalf("message %q instead of %d", m.Frames[0], i)
		}
		r.in.mu.Lock()
		size := r.in.size
		r.in.mu.Unlock()
		if size > 10_000+2200 {
			t.Fatalf("inbox holds %d bytes", size)
		}
	}
}

func TestCloseDrains(t *testing.T) {
	t.Parallel()
	r := router(t, Options{})
	c := dialTo(t, r.Endpoint(), "DEALER", "a")
	c.Send([]byte("hi"))
	m := must[Message](t)(r.Recv())
	const n = 200
	for i := range n {
		r.Send(m.Identity, []byte{byte(i)}, make([]byte, 50_000))
	}
	closed := make(chan time.Duration, 1)
	go func() {
		began := time.Now()
		r.Close(patience)
		closed <- time.Since(began)
	}()
	go func() { // input that comes after the end makes TCP reset a connection that was just closed
		for c.Send([]byte("too late")) == nil {
		}
	}()
	time.Sleep(20 * time.Millisecond) // a reader that is late
	for i := range n {
		if got := must[[][]byte](t)(c.Recv()); got[0][0] != byte(i) || len(got[1]) != 50_000 {
			t.Fatalf("message %d came wrong", i)
		}
	}
	if _, err := c.Recv(); err != io.EOF {
		t.Errorf("after the last message: %v", err)
	}
	c.Close()
	if d := <-closed; d > patience/2 {
		t.Errorf("Close took %v", d)
	}
	if _, err := r.Recv(); err != ErrClosed {
		t.Errorf("Recv after Close: %v", err)
	}
	r.Send(m.Identity, []byte("late"))
	if err := r.Close(0); err != nil {
		t.Errorf("second Close: %v", err)
	}
	if _, err := Dial(context.Background(), r.Endpoint(), "DEALER", nil); err == nil {
		t.Error("it still accepts")
	}
}

func TestCloseDoesNotWaitForEver(t *testing.T) {
	t.Parallel()
	r := must[*Router](t)(ListenRouter("tcp://127.0.0.1:0", Options{}))
	stuck := shaken(t, r.Endpoint(), "DEALER", "stuck")
	stuck.say("\x00\x02hi")
	m := must[Message](t)(r.Recv())
	r.Send(m.Identity, make([]byte, 30_000_000))
	rawTo(t, r.Endpoint()) // silent
	began := time.Now()
	r.Close(100 * time.Millisecond)
	if d := time.Since(began); d > 2*time.Second {
		t.Errorf("Close took %v", d)
	}
}

func TestCloseWakesRecv(t *testing.T) {
	t.Parallel()
	s := rep(t)
	err := make(chan error, 1)
	go func() { _, e := s.Recv(); err <- e }()
	time.Sleep(5 * time.Millisecond)
	s.Close(0)
	if e := <-err; e != ErrClosed {
		t.Errorf("Recv: %v", e)
	}
}

func TestUnixSocket(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "k-1")
	// a socket file left by a killed process
	old := must[*net.UnixListener](t)(net.ListenUnix("unix", &net.UnixAddr{Name: path, Net: "unix"}))
	old.SetUnlinkOnClose(false)
	old.Close()
	r := must[*Router](t)(ListenRouter("ipc://"+path, Options{}))
	defer r.Close(0)
	if r.Endpoint() != "ipc://"+path {
		t.Errorf("endpoint %s", r.Endpoint())
	}
	if info := must[os.FileInfo](t)(os.Stat(path)); info.Mode().Perm() != 0o600 {
		t.Errorf("others may open it: %v", info.Mode())
	}
	if other, err := ListenRouter("ipc://"+path, Options{}); err == nil {
		other.Close(0)
		t.Error("bound twice")
	}
	c := dialTo(t, r.Endpoint(), "DEALER", "a")
	c.Send([]byte("hi"))
	m := must[Message](t)(r.Recv())
	r.Send(m.Identity, []byte("you"))
	if got := must[[][]byte](t)(c.Recv()); string(got[0]) != "you" {
		t.Errorf("got %q", got)
	}
	c.Close()
	r.Close(time.Second)
	if _, err := os.Stat(path); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("socket file stays: %v", err)
	}
}

func TestEndpoints(t *testing.T) {
	t.Parallel()
	for _, bad := range []string{"", "127.0.0.1:1", "tcp://127.0.0.1", "udp://127.0.0.1:1", "ipc://", "tcp://127.0.0.1:99999"} {
		if r, err := ListenRouter(bad, Options{}); err == nil {
			r.Close(0)
			t.Errorf("%q was opened", bad)
		}
	}
	r := must[*Router](t)(ListenRouter("tcp://*:0", Options{}))
	defer r.Close(0)
	_, port, _ := net.SplitHostPort(strings.TrimPrefix(r.Endpoint(), "tcp://"))
	dialTo(t, "tcp://127.0.0.1:"+port, "DEALER", "")
}

func TestLongUnixPath(t *testing.T) {
	t.Parallel()
	path := "ipc://" + filepath.Join(t.TempDir(), strings.Repeat("x", 120))
	r, err := ListenRouter(path, Options{})
	if err == nil {
		r.Close(0)
		t.Skip("this system takes longer paths")
	}
	if !strings.Contains(err.Error(), "has at most 103 bytes") {
		t.Errorf("%v", err)
	}
}

// Options.Cut hears of those that break a rule, and of nobody else.
func TestCutIsTold(t *testing.T) {
	t.Parallel()
	why := make(chan error, 10)
	opt := Options{MaxFrame: 100, QueueOut: 1000, Handshake: 50 * time.Millisecond, Cut: func(err error) { why <- err }}
	r := router(t, opt)
	expect := func(want string) {
		t.Helper()
		select {
		case err := <-why:
			if !strings.Contains(err.Error(), want) {
				t.Errorf("told %v, want %q", err, want)
			}
		case <-time.After(patience):
			t.Errorf("never told: %q", want)
		}
	}
	dialTo(t, r.Endpoint(), "DEALER", "leaves").Close()
	rawTo(t, r.Endpoint()).Close()
	rawTo(t, r.Endpoint()).expectCut("says nothing in time")
	shaken(t, r.Endpoint(), "DEALER", "in the middle of a frame").say("\x00\x10a")
	dialTo(t, r.Endpoint(), "DEALER", "sends much").Send(make([]byte, 101))
	expect("frame of 101 bytes is over the limit of 100")
	shaken(t, r.Endpoint(), "SUB", "").expectCut("wrong type")
	expect(`peer is a "SUB" socket, which cannot talk to a ROUTER`)
	rawTo(t, r.Endpoint()).say("GET / HTTP/1.1\r\n\r\n")
	expect("peer does not speak ZMTP")
	x := xpub(t, opt, nil)
	s := shaken(t, x.Endpoint(), "SUB", "")
	s.say("\x00\x01\x01")
	for end := time.Now().Add(patience); len(why) == 0 && time.Now().Before(end); {
		x.Publish(make([]byte, 900))
	}
	expect("peer does not read what is sent to it")
	select {
	case err := <-why:
		t.Errorf("told %v", err)
	default:
	}
}
