package zmtp

import (
	"errors"
	"strings"
	"time"
)

const (
	maxTopics = 1000
	maxTopic  = 4 << 10
)

// An XPub publishes messages to the clients (SUB or XSUB) that subscribed to a
// prefix of their first frame.
type XPub struct {
	socket
	welcome func(topic string) [][]byte
}

// ListenXPub binds an XPub. If welcome is not nil, what it returns for a new
// subscription is sent to that subscriber alone, before anything published
// later. Several goroutines may publish.
func ListenXPub(endpoint string, opt Options, welcome func(topic string) [][]byte) (*XPub, error) {
	if opt.MaxMessage == 0 { // subscribers have nothing long to say
		opt.MaxMessage = 64 << 10
	}
	x := &XPub{welcome: welcome}
	x.own, x.accepts = "XPUB", []string{"SUB", "XSUB"}
	x.handle = func(p *peer, frames [][]byte, _ int) error { return x.subscription(p, frames) }
	return x, x.listen(endpoint, opt)
}

// subscription takes 1 topic or 0 topic; other messages of an XSUB are ignored.
func (x *XPub) subscription(p *peer, frames [][]byte) error {
	if len(frames) != 1 || len(frames[0]) == 0 || frames[0][0] > 1 {
		return nil
	}
	topic := string(frames[0][1:])
	if frames[0][0] == 0 {
		p.unsubscribe(topic)
		return nil
	}
	var hello [][]byte
	if x.welcome != nil {
		hello = x.welcome(topic)
	}
	return p.subscribe(topic, hello)
}

// subscribe adds the topic and queues the welcome in one step, so that nothing
// published for it comes first.
func (p *peer) subscribe(topic string, hello [][]byte) error {
	p.mu.Lock()
	defer p.mu.Unlock()
	if len(topic) > maxTopic || len(p.topics) >= maxTopics && p.topics[topic] == 0 {
		return errors.New("too many or too long subscriptions")
	}
	if p.topics == nil {
		p.topics = map[string]int{}
	}
	p.topics[topic]++
	if hello != nil {
		p.sendLocked(pack(hello))
	}
	return nil
}

func (p *peer) unsubscribe(topic string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.topics[topic] <= 1 {
		delete(p.topics, topic)
		return
	}
	p.topics[topic]--
}

// publish queues the packet if the peer subscribed to a prefix of the topic.
func (p *peer) publish(topic string, pk packet) {
	p.mu.Lock()
	defer p.mu.Unlock()
	for t := range p.topics {
		if strings.HasPrefix(topic, t) {
			p.sendLocked(pk)
			return
		}
	}
}

// Publish queues a message for every subscriber and does not wait. All get
// messages in the order of the calls. The frames must not be changed
// afterwards.
func (x *XPub) Publish(frames ...[]byte) {
	if len(frames) == 0 {
		return
	}
	pk := pack(frames)
	topic := string(frames[0])
	x.mu.Lock()
	defer x.mu.Unlock()
	for _, p := range x.conns {
		if p != nil {
			p.publish(topic, pk)
		}
	}
}

// Close lets what was published leave for at most linger and closes all
// connections.
func (x *XPub) Close(linger time.Duration) error { return x.close(linger) }
