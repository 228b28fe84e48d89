package jupyter

import (
	"context"
	"encoding/json"
	"errors"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"ohmwright/kernel/zmtp"
)

const testPatience = 10 * time.Second

// running is a kernel in this process.
type running struct {
	t     *testing.T
	conn  *connection
	core  *lineCore
	ended chan error
}

// start serves over Unix sockets: unlike a TCP port, a path in a folder of
// this test's own cannot be taken by another test.
func start(t *testing.T, key string) *running {
	t.Helper()
	c := &connection{Transport: "ipc", IP: filepath.Join(t.TempDir(), "k"), Key: key,
		Shell: 1, IOPub: 2, Stdin: 3, Control: 4, Heartbeat: 5}
	ctx, cancel := context.WithCancel(context.Background())
	k := &running{t, c, &lineCore{}, make(chan error, 1)}
	go func() { k.ended <- serve(ctx, c, k.core, testInfo) }()
	t.Cleanup(func() {
		cancel()
		select {
		case <-k.ended:
		case <-time.After(testPatience):
			t.Error("the kernel did not end")
		}
	})
	return k
}

// wantEnd waits until the kernel has ended by itself.
func (k *running) wantEnd(within time.Duration) {
	k.t.Helper()
	select {
	case err := <-k.ended:
		if err != nil {
			k.t.Errorf("kernel ended with %v", err)
		}
		k.ended <- err
	case <-time.After(within):
		k.t.Fatalf("kernel did not end within %v", within)
	}
}

// person is a client that fails the test when something does not come.
type person struct {
	*client
	t *testing.T
	// made numbers the kernel's messages in the order in which it made them, by
	// the request's id and what it was ("busy", "reply"): the channels by
	// themselves do not tell whether a reply left before the idle.
	made map[string]int
}

func (p person) note(m *received, what string) {
	p.t.Helper()
	var h header
	if err := json.Unmarshal(m.header, &h); err != nil {
		p.t.Fatal(err)
	}
	_, n, _ := strings.Cut(h.ID, "_")
	serial, err := strconv.Atoi(n)
	if err != nil {
		p.t.Fatalf("msg_id %s", h.ID)
	}
	p.made[m.parent+" "+what] = serial
}

func (k *running) client() person {
	k.t.Helper()
	return k.clientFor(testPatience)
}

// clientFor fails the test when it takes longer.
func (k *running) clientFor(d time.Duration) person {
	k.t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), d)
	k.t.Cleanup(cancel)
	c, err := connect(ctx, k.conn)
	if err != nil {
		k.t.Fatal(err)
	}
	p := person{c, k.t, map[string]int{}}
	if m := p.next(c.iopub); m.kind != "iopub_welcome" {
		k.t.Fatalf("first on iopub: %s", m.kind)
	}
	return p
}

func (p person) next(from *zmtp.Conn) *received {
	p.t.Helper()
	m, err := p.recv(from)
	if err != nil {
		p.t.Fatal(err)
	}
	if err := meetsSchema(m); err != nil {
		p.t.Errorf("%s does not meet the standard: %v\n%.500s of %s", m.kind, err, m.content, m.ofAsker)
	}
	return m
}

// asked is a request on its way.
type asked struct {
	id     string
	header json.RawMessage
	on     *zmtp.Conn
}

func (p person) sendOn(on *zmtp.Conn, kind string, content any) asked {
	p.t.Helper()
	frames, err := p.wire.build(nil, kind, nil, content)
	if err != nil {
		p.t.Fatal(err)
	}
	if err := on.Send(frames...); err != nil {
		p.t.Fatal(err)
	}
	var h header
	if err := json.Unmarshal(frames[2], &h); err != nil {
		p.t.Fatal(err)
	}
	return asked{h.ID, frames[2], on}
}

// published reads iopub to the request's idle and gives what the request
// caused, in short: "busy", "stream stdout ok\n", "idle".
func (p person) published(a asked) []string {
	p.t.Helper()
	var seen []string
	for {
		m := p.next(p.iopub)
		if m.parent != a.id {
			continue
		}
		if string(m.ofAsker) != string(a.header) {
			p.t.Errorf("%s: parent header %s is not that of the request: %s", m.kind, m.ofAsker, a.header)
		}
		if !strings.HasSuffix(m.topic, "."+m.kind) {
			p.t.Errorf("%s: topic %s", m.kind, m.topic)
		}
		seen = append(seen, p.short(m))
		p.note(m, seen[len(seen)-1])
		if seen[len(seen)-1] == "idle" {
			return seen
		}
	}
}

func (p person) short(m *received) string {
	p.t.Helper()
	var c struct {
		State     string         `json:"execution_state"`
		Name      string         `json:"name"`
		Text      string         `json:"text"`
		Code      string         `json:"code"`
		Data      map[string]any `json:"data"`
		Transient map[string]any `json:"transient"`
		EName     string         `json:"ename"`
		EValue    string         `json:"evalue"`
	}
	if err := json.Unmarshal(m.content, &c); err != nil {
		p.t.Fatalf("%s: %s: %v", m.kind, m.content, err)
	}
	switch m.kind {
	case "status":
		return c.State
	case "stream":
		return "stream " + c.Name + " " + c.Text
	case "execute_input":
		return "input " + c.Code
	case "error":
		return "error " + c.EName + ": " + c.EValue
	case "display_data", "update_display_data", "execute_result":
		text, _ := c.Data["text/plain"].(string)
		return m.kind + " " + text
	}
	return m.kind
}

// reply reads the channel to the answer of this request.
func (p person) reply(a asked) map[string]any {
	p.t.Helper()
	for {
		m := p.next(a.on)
		if m.parent != a.id {
			continue
		}
		if string(m.ofAsker) != string(a.header) {
			p.t.Errorf("%s: parent header %s is not that of the request: %s", m.kind, m.ofAsker, a.header)
		}
		var c map[string]any
		if err := json.Unmarshal(m.content, &c); err != nil {
			p.t.Fatal(err)
		}
		c["msg_type"] = m.kind
		p.note(m, "reply")
		return c
	}
}

func (p person) execute(code string, options ...map[string]any) asked {
	p.t.Helper()
	return p.sendOn(p.shell, "execute_request", executeContentOf(code, options...))
}

func executeContentOf(code string, options ...map[string]any) map[string]any {
	content := map[string]any{"code": code, "silent": false, "store_history": true,
		"user_expressions": map[string]any{}, "allow_stdin": false, "stop_on_error": true}
	for _, o := range options {
		for k, v := range o {
			content[k] = v
		}
	}
	return content
}

// run executes and gives reply and what was shown.
func (p person) run(code string, options ...map[string]any) (map[string]any, []string) {
	p.t.Helper()
	a := p.execute(code, options...)
	return p.reply(a), p.published(a)
}

// quiet checks that nothing comes on a channel for a moment.
func (p person) quiet(on *zmtp.Conn) {
	p.t.Helper()
	on.SetDeadline(time.Now().Add(30 * time.Millisecond))
	if frames, err := on.Recv(); err == nil {
		p.t.Errorf("unexpected message: %q", frames)
	} else if !isTimeout(err) {
		p.t.Error(err)
	}
	on.SetDeadline(time.Now().Add(testPatience))
}

func isTimeout(err error) bool {
	var t interface{ Timeout() bool }
	return errors.As(err, &t) && t.Timeout()
}

func sameLines(t *testing.T, what string, got, want []string) {
	t.Helper()
	if g, w := strings.Join(got, "\n"), strings.Join(want, "\n"); g != w {
		t.Errorf("%s:\ngot\n%s\nwant\n%s", what, g, w)
	}
}

func (p person) wantStatus(reply map[string]any, status string) {
	p.t.Helper()
	if reply["status"] != status {
		p.t.Errorf("reply %v, want status %s", reply, status)
	}
}
