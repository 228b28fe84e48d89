package zmtp

import (
	"bufio"
	"context"
	"fmt"
	"net"
	"time"
)

// A Conn is one plain connection to a server: enough to try a server out, in a
// test or after an installation. Unlike a ZeroMQ socket it does not reconnect
// or queue, and Recv is for one goroutine.
type Conn struct {
	conn net.Conn
	r    *bufio.Reader
}

// Dial connects as the given socket type (DEALER, REQ or SUB).
func Dial(ctx context.Context, endpoint, socketType string, identity []byte) (*Conn, error) {
	conn, err := dial(ctx, endpoint)
	if err != nil {
		return nil, err
	}
	end, ok := ctx.Deadline()
	if !ok {
		end = time.Now().Add(Options{}.withDefaults().Handshake)
	}
	conn.SetDeadline(end)
	c := &Conn{conn, bufio.NewReader(conn)}
	if _, err := shakeHands(c.r, conn, hello{socketType, identity}); err != nil {
		conn.Close()
		return nil, fmt.Errorf("handshake with %s: %w", endpoint, err)
	}
	conn.SetDeadline(time.Time{})
	return c, nil
}

// Send sends one message.
func (c *Conn) Send(frames ...[]byte) error {
	parts := net.Buffers(pack(frames).parts)
	_, err := parts.WriteTo(c.conn)
	return err
}

// Subscribe asks for the messages whose first frame begins with topic.
func (c *Conn) Subscribe(topic string) error {
	return c.Send(append([]byte{1}, topic...))
}

// Recv waits for the next message; commands are passed over.
func (c *Conn) Recv() ([][]byte, error) {
	limit := Options{}.withDefaults().MaxFrame
	var frames [][]byte
	for {
		f, err := readFrame(c.r, limit)
		if err != nil {
			return nil, err
		}
		if f.command() {
			continue
		}
		if frames = append(frames, f.body); !f.more() {
			return frames, nil
		}
	}
}

// SetDeadline bounds the calls of Send and Recv that follow.
func (c *Conn) SetDeadline(t time.Time) error { return c.conn.SetDeadline(t) }

// Close ends the connection.
func (c *Conn) Close() error { return c.conn.Close() }
