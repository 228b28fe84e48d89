package zmtp

import (
	"sync"
	"time"
)

// A Message came in on a Router or Rep socket.
type Message struct {
	Identity []byte   // of the client; an answer goes to it
	Frames   [][]byte // without identity (Router) or envelope (Rep)
	At       time.Time

	from     *peer
	envelope [][]byte
	size     int
}

// inbox holds what was read and not yet received, up to a limit in bytes.
// When it is full the readers wait, and so TCP slows the senders down.
type inbox struct {
	mu     sync.Mutex
	change sync.Cond
	queue  []Message
	size   int
	limit  int
	closed bool
}

func newInbox(limit int) *inbox {
	b := &inbox{limit: limit}
	b.change.L = &b.mu
	return b
}

// push waits until there is room; a message of any size goes into an inbox
// that is under its limit. After close it does nothing.
func (b *inbox) push(m Message) {
	b.mu.Lock()
	defer b.mu.Unlock()
	for b.size >= b.limit && !b.closed {
		b.change.Wait()
	}
	if b.closed {
		return
	}
	b.queue = append(b.queue, m)
	b.size += m.size
	b.change.Broadcast()
}

func (b *inbox) pop() (Message, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	for len(b.queue) == 0 && !b.closed {
		b.change.Wait()
	}
	if b.closed {
		return Message{}, ErrClosed
	}
	m := b.queue[0]
	b.queue[0] = Message{}
	b.queue = b.queue[1:]
	b.size -= m.size
	b.change.Broadcast()
	return m, nil
}

func (b *inbox) close() {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.closed = true
	b.queue, b.size = nil, 0
	b.change.Broadcast()
}
