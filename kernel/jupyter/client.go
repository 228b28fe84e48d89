package jupyter

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net"
	"os"
	"time"

	"ohmwright/kernel/zmtp"
)

// A client is a front end without a person: enough to try a kernel out.
type client struct {
	wire                  *wire
	shell, control, iopub *zmtp.Conn
	heartbeat             *zmtp.Conn
}

// A received message, for whoever looks at it.
type received struct {
	kind    string
	parent  string // msg_id of the request that caused it
	header  json.RawMessage
	ofAsker json.RawMessage // parent header, byte for byte
	content json.RawMessage
	// metadata of the message, not of the request
	metadata json.RawMessage
	topic    string
}

// connect waits until the kernel listens, then opens all channels.
func connect(ctx context.Context, c *connection) (*client, error) {
	w := newWire(c.Key)
	k := &client{wire: w}
	for _, ch := range []struct {
		conn **zmtp.Conn
		port int
		kind string
	}{{&k.shell, c.Shell, "DEALER"}, {&k.control, c.Control, "DEALER"}, {&k.iopub, c.IOPub, "SUB"},
		{&k.heartbeat, c.Heartbeat, "REQ"}} {
		for {
			conn, err := zmtp.Dial(ctx, c.endpoint(ch.port), ch.kind, []byte(w.session))
			if err == nil {
				*ch.conn = conn
				break
			}
			select {
			case <-ctx.Done():
				k.close()
				return nil, err
			case <-time.After(5 * time.Millisecond):
			}
		}
	}
	if end, ok := ctx.Deadline(); ok {
		for _, conn := range k.conns() {
			conn.SetDeadline(end)
		}
	}
	context.AfterFunc(ctx, k.close)
	return k, k.iopub.Subscribe("")
}

func (k *client) conns() []*zmtp.Conn {
	return []*zmtp.Conn{k.shell, k.control, k.iopub, k.heartbeat}
}

func (k *client) close() {
	for _, c := range k.conns() {
		if c != nil {
			c.Close()
		}
	}
}

// send sends a request and returns its msg_id.
func (k *client) send(to *zmtp.Conn, kind string, content any) (id string, err error) {
	frames, err := k.wire.build(nil, kind, nil, content)
	if err != nil {
		return "", err
	}
	var h header
	if err := json.Unmarshal(frames[2], &h); err != nil {
		return "", err
	}
	return h.ID, to.Send(frames...)
}

// recv waits for the next message and verifies it.
func (k *client) recv(from *zmtp.Conn) (*received, error) {
	frames, err := from.Recv()
	if err != nil {
		return nil, err
	}
	r, err := k.wire.parse(frames)
	if err != nil {
		return nil, err
	}
	m := &received{kind: r.kind, header: r.header, metadata: r.metadata, content: r.content, ofAsker: frames[len(r.identities)+3]}
	if len(r.identities) > 0 {
		m.topic = string(r.identities[0])
	}
	var parent struct {
		ID string `json:"msg_id"`
	}
	if err := json.Unmarshal(m.ofAsker, &parent); err != nil {
		return nil, err
	}
	m.parent = parent.ID
	return m, nil
}

// wait reads until a message of that kind comes.
func (k *client) wait(from *zmtp.Conn, kind string) (*received, error) {
	for {
		m, err := k.recv(from)
		if err != nil {
			return nil, fmt.Errorf("no %s came: %w", kind, err)
		}
		if m.kind == kind {
			return m, nil
		}
	}
}

// converse asks what a front end asks at its start, and ends the kernel. It
// returns the time from began to the first answer.
func converse(ctx context.Context, c *connection, began time.Time) (time.Duration, error) {
	k, err := connect(ctx, c)
	if err != nil {
		return 0, err
	}
	defer k.close()
	if _, err := k.wait(k.iopub, "iopub_welcome"); err != nil {
		return 0, err
	}
	if _, err := k.send(k.shell, "kernel_info_request", struct{}{}); err != nil {
		return 0, err
	}
	if _, err := k.wait(k.shell, "kernel_info_reply"); err != nil {
		return 0, err
	}
	first := time.Since(began)
	if _, err := k.wait(k.iopub, "status"); err != nil {
		return 0, err
	}
	if err := k.heartbeat.Send(nil, []byte("beat")); err != nil {
		return 0, err
	}
	if echo, err := k.heartbeat.Recv(); err != nil || len(echo) != 2 || string(echo[1]) != "beat" {
		return 0, fmt.Errorf("heartbeat does not answer: %w", errors.Join(err, fmt.Errorf("got %q", echo)))
	}
	if _, err := k.send(k.control, "shutdown_request", map[string]any{"restart": false}); err != nil {
		return 0, err
	}
	_, err = k.wait(k.control, "shutdown_reply")
	return first, err
}

// freeConnection names five ports of this machine that nobody uses now.
func freeConnection() (*connection, error) {
	c := &connection{Transport: "tcp", IP: "127.0.0.1", Key: newSession(), Scheme: "hmac-sha256"}
	for _, p := range []*int{&c.Shell, &c.IOPub, &c.Stdin, &c.Control, &c.Heartbeat} {
		ln, err := net.Listen("tcp", "127.0.0.1:0")
		if err != nil {
			return nil, err
		}
		defer ln.Close() // all are open until all are named, so that none comes twice
		*p = ln.Addr().(*net.TCPAddr).Port
	}
	return c, nil
}

func (c *connection) write(path string) error {
	data, err := json.Marshal(c)
	if err != nil {
		return err
	}
	return os.WriteFile(path, data, 0o600) // it holds the key
}
