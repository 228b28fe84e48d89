package zmtp

import "time"

// A Router receives from many clients (DEALER, REQ or ROUTER) and sends to one
// of them by its identity.
//
// Two connections may claim one identity: a client that reconnects before its
// old connection was seen to end. The newest gets what is sent. The older ones
// stay connected and are served: cutting them would make two live clients with
// one identity throw each other out for ever, since both reconnect.
type Router struct {
	socket
	in     *inbox
	routes map[string][]*peer // newest last; under mu
}

// ListenRouter binds a Router. Several goroutines may use it.
func ListenRouter(endpoint string, opt Options) (*Router, error) {
	r := &Router{in: newInbox(opt.withDefaults().QueueIn), routes: map[string][]*peer{}}
	r.own, r.accepts = "ROUTER", []string{"DEALER", "REQ", "ROUTER"}
	r.joined = func(p *peer) {
		id := string(p.identity)
		r.routes[id] = append(r.routes[id], p)
	}
	r.left = func(p *peer) {
		id := string(p.identity)
		var rest []*peer
		for _, q := range r.routes[id] {
			if q != p {
				rest = append(rest, q)
			}
		}
		if r.routes[id] = rest; len(rest) == 0 {
			delete(r.routes, id)
		}
	}
	r.handle = func(p *peer, frames [][]byte, size int) error {
		r.in.push(Message{Identity: p.identity, Frames: frames, At: time.Now(), size: size})
		return nil
	}
	return r, r.listen(endpoint, opt)
}

// Recv waits for the next message of any client.
func (r *Router) Recv() (Message, error) { return r.in.pop() }

// Send queues a message for the client with that identity and does not wait. A
// client that has left gets nothing. The frames must not be changed afterwards.
func (r *Router) Send(identity []byte, frames ...[]byte) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if ps := r.routes[string(identity)]; len(ps) > 0 {
		ps[len(ps)-1].send(pack(frames))
	}
}

// Close stops receiving, lets what was sent leave for at most linger, and
// closes all connections.
func (r *Router) Close(linger time.Duration) error {
	r.in.close()
	return r.close(linger)
}
