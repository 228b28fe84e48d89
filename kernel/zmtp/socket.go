package zmtp

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"net"
	"sync"
	"time"
)

// ErrClosed is what Recv returns after Close.
var ErrClosed = errors.New("socket is closed")

// Options bound what one socket spends on its clients. Zero means the default
// in brackets.
type Options struct {
	Handshake  time.Duration // time for a new connection to become a peer [10 s]
	MaxFrame   int           // bytes of a frame [64 MiB]
	MaxMessage int           // bytes of a message, each frame counted with 64 more [128 MiB]
	QueueOut   int           // bytes that may wait for one peer before it is cut off [64 MiB]
	QueueIn    int           // bytes read and not yet received before reading pauses [64 MiB]

	// Cut is told why a client was cut off or not let in, where that is the
	// client's fault [nobody]. Ends of connections are not.
	Cut func(error)
}

func (o Options) withDefaults() Options {
	def := func(v *int, d int) {
		if *v == 0 {
			*v = d
		}
	}
	if o.Handshake == 0 {
		o.Handshake = 10 * time.Second
	}
	def(&o.MaxFrame, 64<<20)
	def(&o.MaxMessage, 128<<20)
	def(&o.QueueOut, 64<<20)
	def(&o.QueueIn, 64<<20)
	return o
}

// socket is what the three kinds share: it accepts, shakes hands and closes.
type socket struct {
	own     string   // socket type announced
	accepts []string // socket types of peers
	opt     Options
	ln      net.Listener
	handle  func(p *peer, frames [][]byte, size int) error
	joined  func(p *peer) // under mu
	left    func(p *peer) // under mu

	mu      sync.Mutex
	conns   map[net.Conn]*peer // nil during the handshake
	closing bool
	serial  uint32 // for the identities of peers that give none
	work    sync.WaitGroup
}

func (s *socket) listen(endpoint string, opt Options) error {
	ln, err := listen(endpoint)
	if err != nil {
		return err
	}
	s.ln, s.opt, s.conns = ln, opt.withDefaults(), map[net.Conn]*peer{}
	s.work.Add(1)
	go s.accept()
	return nil
}

// Endpoint is the address in ZeroMQ's form, with the port that was given out
// where port 0 was asked for.
func (s *socket) Endpoint() string { return endpointOf(s.ln.Addr()) }

func (s *socket) accept() {
	defer s.work.Done()
	for {
		conn, err := s.ln.Accept()
		if errors.Is(err, net.ErrClosed) {
			return
		}
		if err != nil { // out of file descriptors: others will be freed
			time.Sleep(20 * time.Millisecond)
			continue
		}
		s.mu.Lock()
		if s.closing {
			s.mu.Unlock()
			conn.Close()
			return
		}
		s.conns[conn] = nil
		s.work.Add(1)
		s.mu.Unlock()
		go s.serve(conn)
	}
}

// serve is the life of one connection.
func (s *socket) serve(conn net.Conn) {
	defer s.work.Done()
	defer func() {
		s.mu.Lock()
		delete(s.conns, conn)
		s.mu.Unlock()
		conn.Close()
	}()
	r := bufio.NewReaderSize(conn, 16<<10)
	deadline(conn, s.opt.Handshake)
	peerSays, err := shakeHands(r, conn, hello{socketType: s.own})
	if err == nil && !s.fits(peerSays.socketType) {
		err = fmt.Errorf("peer is a %.20q socket, which cannot talk to a %s", peerSays.socketType, s.own)
	}
	if err != nil {
		s.cut(err)
		return
	}
	deadline(conn, 0)
	p := newPeer(conn, r, s.opt.QueueOut)
	if !s.join(p, peerSays.identity) {
		return
	}
	s.work.Add(1)
	go func() {
		defer s.work.Done()
		p.write()
	}()
	err = p.read(s.opt, func(frames [][]byte, size int) error {
		if p.isDraining() {
			return nil
		}
		return s.handle(p, frames, size)
	})
	if p.isOverfull() {
		err = errOverfull
	}
	s.cut(err)
	s.mu.Lock()
	if s.left != nil {
		s.left(p)
	}
	s.mu.Unlock()
	p.kill()
}

var errOverfull = errors.New("peer does not read what is sent to it")

// cut tells of a peer that broke a rule; one that left, broke down or said
// nothing in time is no news.
func (s *socket) cut(err error) {
	var network net.Error
	if s.opt.Cut == nil || err == nil || errors.As(err, &network) ||
		errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, net.ErrClosed) {
		return
	}
	s.opt.Cut(err)
}

// join makes the peer known to the socket unless the socket is closing.
func (s *socket) join(p *peer, identity []byte) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.closing {
		return false
	}
	if len(identity) == 0 || identity[0] == 0 { // a leading zero byte is reserved for these
		s.serial++
		n := s.serial
		identity = []byte{0, byte(n >> 24), byte(n >> 16), byte(n >> 8), byte(n)}
	}
	p.identity = identity
	s.conns[p.conn] = p
	if s.joined != nil {
		s.joined(p)
	}
	return true
}

func (s *socket) fits(socketType string) bool {
	for _, t := range s.accepts {
		if t == socketType {
			return true
		}
	}
	return false
}

// close stops accepting, lets every peer's queue leave for at most linger, and
// returns when no goroutine of the socket is left.
func (s *socket) close(linger time.Duration) error {
	s.mu.Lock()
	s.closing = true
	err := s.ln.Close()
	for conn, p := range s.conns {
		if p == nil {
			conn.Close()
			continue
		}
		p.drain()
	}
	s.mu.Unlock()
	done := make(chan struct{})
	go func() { s.work.Wait(); close(done) }()
	late := time.NewTimer(linger)
	defer late.Stop()
	select {
	case <-done:
	case <-late.C:
		s.mu.Lock()
		for conn := range s.conns {
			conn.Close()
		}
		s.mu.Unlock()
		<-done
	}
	if errors.Is(err, net.ErrClosed) { // closed before
		return nil
	}
	return err
}
