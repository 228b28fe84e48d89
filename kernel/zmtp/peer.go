package zmtp

import (
	"bufio"
	"errors"
	"fmt"
	"net"
	"sync"
	"time"
)

// batch is about how many bytes go to the operating system in one call. It is
// small so that the count of what still waits is up to date.
const batch = 256 << 10

// A peer is one connection after its handshake: a goroutine that reads, one
// that writes, and the messages that wait for the writer.
type peer struct {
	conn     net.Conn
	r        *bufio.Reader
	identity []byte

	mu       sync.Mutex
	change   sync.Cond
	queue    []packet
	queued   int // bytes in queue and in the writer's hands
	limit    int
	draining bool // the writer ends when the queue is empty
	dead     bool
	overfull bool           // dead because too much waited
	topics   map[string]int // XPub only: subscriptions and how often each was made
}

func newPeer(conn net.Conn, r *bufio.Reader, limit int) *peer {
	p := &peer{conn: conn, r: r, limit: limit}
	p.change.L = &p.mu
	return p
}

// send queues a packet and never waits. A peer for which too much waits is cut
// off; a single packet of any size passes when nothing waits before it.
func (p *peer) send(pk packet) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.sendLocked(pk)
}

func (p *peer) sendLocked(pk packet) {
	if p.dead || p.draining {
		return
	}
	if p.queued > 0 && p.queued+pk.size > p.limit {
		p.overfull = true
		p.killLocked()
		return
	}
	p.queue = append(p.queue, pk)
	p.queued += pk.size
	p.change.Signal()
}

// kill closes the connection at once.
func (p *peer) kill() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.killLocked()
}

func (p *peer) killLocked() {
	p.dead = true
	p.queue = nil
	p.conn.Close()
	p.change.Signal()
}

// drain lets the writer send what waits and then say that this is the end.
func (p *peer) drain() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.draining = true
	p.change.Signal()
}

func (p *peer) isDraining() bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.draining
}

func (p *peer) isOverfull() bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.overfull
}

// write sends what is queued until the peer is dead or drained.
func (p *peer) write() {
	for {
		parts, size, ok := p.take()
		if !ok {
			return
		}
		if size == 0 {
			// Half-close only: closing with unread input makes TCP send a
			// reset, which may overtake the last reply. The reader goes on
			// until the peer has seen the end and closes.
			if c, ok := p.conn.(interface{ CloseWrite() error }); ok {
				c.CloseWrite()
			}
			return
		}
		if _, err := parts.WriteTo(p.conn); err != nil {
			p.kill()
			return
		}
		p.mu.Lock()
		p.queued -= size
		p.mu.Unlock()
	}
}

// take gives the writer its next batch; size is 0 when the peer is drained.
func (p *peer) take() (parts net.Buffers, size int, ok bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	for len(p.queue) == 0 && !p.dead && !p.draining {
		p.change.Wait()
	}
	if p.dead {
		return nil, 0, false
	}
	n := 0
	for ; n < len(p.queue) && size < batch; n++ {
		parts = append(parts, p.queue[n].parts...)
		size += p.queue[n].size
		p.queue[n] = packet{}
	}
	if p.queue = p.queue[n:]; len(p.queue) == 0 {
		p.queue = nil
	}
	return parts, size, true
}

// read hands each message to handle until the connection ends or breaks a rule.
// libzmq may send a PING between two frames of a message, so commands are
// taken at any place.
func (p *peer) read(opt Options, handle func(frames [][]byte, size int) error) error {
	var frames [][]byte
	size := 0
	for {
		f, err := readFrame(p.r, opt.MaxFrame)
		if err != nil {
			return err
		}
		if f.command() {
			if err := p.command(f.body, handle); err != nil {
				return err
			}
			continue
		}
		if size += len(f.body) + frameCost; size > opt.MaxMessage {
			return fmt.Errorf("message is over the limit of %d bytes", opt.MaxMessage)
		}
		frames = append(frames, f.body)
		if f.more() {
			continue
		}
		if err := handle(frames, size); err != nil {
			return err
		}
		frames, size = nil, 0
	}
}

// command answers a PING and takes the subscriptions of a peer that speaks
// ZMTP 3.1 although we announced 3.0. Unknown commands are ignored (RFC 23).
func (p *peer) command(body []byte, handle func([][]byte, int) error) error {
	name, data, err := splitCommand(body)
	if err != nil {
		return err
	}
	switch name {
	case "PING": // two bytes of time to live, then a context of up to 16 bytes
		if len(data) < 2 || len(data) > 18 {
			return errors.New("PING is malformed")
		}
		p.send(packCommand("PONG", data[2:]))
	case "SUBSCRIBE":
		return handle([][]byte{append([]byte{1}, data...)}, len(data))
	case "CANCEL":
		return handle([][]byte{append([]byte{0}, data...)}, len(data))
	case "ERROR":
		return errors.New("peer reports an error")
	}
	return nil
}

// deadline for the handshake; zero takes it away.
func deadline(conn net.Conn, d time.Duration) {
	if d == 0 {
		conn.SetDeadline(time.Time{})
		return
	}
	conn.SetDeadline(time.Now().Add(d))
}
