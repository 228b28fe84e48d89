package zmtp

import "time"

// A Rep answers requests of REQ and DEALER clients.
type Rep struct {
	socket
	in *inbox
}

// ListenRep binds a Rep. Several goroutines may use it.
func ListenRep(endpoint string, opt Options) (*Rep, error) {
	s := &Rep{in: newInbox(opt.withDefaults().QueueIn)}
	s.own, s.accepts = "REP", []string{"REQ", "DEALER"}
	s.handle = func(p *peer, frames [][]byte, size int) error {
		for i, f := range frames {
			if len(f) == 0 { // ends the envelope
				s.in.push(Message{Identity: p.identity, Frames: frames[i+1:], At: time.Now(),
					from: p, envelope: frames[:i+1], size: size})
				break
			}
		}
		return nil // a request without envelope cannot be answered: dropped, as libzmq does
	}
	return s, s.listen(endpoint, opt)
}

// Recv waits for the next request of any client.
func (s *Rep) Recv() (Message, error) { return s.in.pop() }

// Reply queues the answer to a request and does not wait. The frames must not
// be changed afterwards.
func (s *Rep) Reply(to Message, frames ...[]byte) {
	to.from.send(pack(append(to.envelope[:len(to.envelope):len(to.envelope)], frames...)))
}

// Close stops receiving, lets what was sent leave for at most linger, and
// closes all connections.
func (s *Rep) Close(linger time.Duration) error {
	s.in.close()
	return s.close(linger)
}
