package jupyter

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"reflect"
	"runtime/debug"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"ohmwright/kernel/zmtp"
)

// A session is what a kernel owes its clients, whatever it computes.
type session struct {
	ctx   context.Context
	core  Core
	info  KernelInfo
	wire  *wire
	socks *sockets
	done  chan struct{} // closed when a shutdown_request was answered
	end   func()        // closes done, once
	ids   atomic.Int64  // display ids made
	told  complaints

	// Of the shell goroutine.
	count       int
	history     history
	abortBefore time.Time // execute_requests that came before are aborted

	mu      sync.Mutex
	cancel  context.CancelCauseFunc // of the cell that runs, else nil
	stopped bool                    // nothing runs any more
	idle    chan struct{}           // closed while no request is handled on shell
}

func openSession(ctx context.Context, key string, core Core, info KernelInfo) *session {
	idle := make(chan struct{})
	close(idle)
	s := &session{ctx: ctx, core: core, info: info, wire: newWire(key), done: make(chan struct{}), idle: idle}
	s.end = sync.OnceFunc(func() { close(s.done) })
	return s
}

// A handler answers one type of request with the content of the reply; nil means
// that the standard has no reply. An error becomes an error reply.
type handler func(r *request) (reply any, err error)

func (s *session) serveShell(shell *zmtp.Router) {
	handlers := map[string]handler{
		"kernel_info_request": s.kernelInfo,
		"execute_request":     s.execute,
		"complete_request":    s.complete,
		"inspect_request":     s.inspect,
		"is_complete_request": s.isComplete,
		"history_request":     s.findHistory,
		"comm_info_request":   s.commInfo,
		"comm_open":           s.refuseComm,
		"shutdown_request":    s.shutdownOnShell,
	}
	for {
		m, err := shell.Recv()
		if err != nil {
			return
		}
		idle := make(chan struct{})
		s.mu.Lock()
		if s.stopped {
			s.mu.Unlock()
			return
		}
		s.idle = idle
		s.mu.Unlock()
		s.dispatch(shell, m, handlers)
		close(idle)
	}
}

// serveControl serves while the shell is busy: its handlers touch nothing that
// belongs to the shell goroutine.
func (s *session) serveControl(control *zmtp.Router) {
	handlers := map[string]handler{
		"kernel_info_request": s.kernelInfo,
		"interrupt_request":   s.interrupt,
		"shutdown_request":    s.shutdown,
	}
	for {
		m, err := control.Recv()
		if err != nil {
			return
		}
		s.dispatch(control, m, handlers)
	}
}

// dispatch is the one place for what holds for every request: busy first, idle
// last, whatever happens between. Types without a handler (comm_msg, those of
// extensions that were not announced) are ignored between busy and idle.
func (s *session) dispatch(sock *zmtp.Router, m zmtp.Message, handlers map[string]handler) {
	r, err := s.wire.parse(m.Frames)
	if err != nil {
		s.complain("dropped: %v", err)
		return
	}
	r.route, r.at = m.Identity, m.At
	ending := false
	defer func() {
		if ending {
			s.end()
		}
	}()
	defer s.status("idle", r)
	defer func() {
		if p := recover(); p != nil {
			s.log("panic in %s: %v\n%s", r.kind, p, debug.Stack())
			s.reply(sock, r, s.failure(r, "InternalError", fmt.Sprintf("the kernel failed in %s: %v", r.kind, p)))
		}
	}()
	s.status("busy", r)
	handle, ok := handlers[r.kind]
	if !ok {
		if !unanswered[r.kind] {
			s.complain("ignored: %.40q is not a message that this kernel answers here", r.kind)
		}
		return
	}
	reply, err := handle(r)
	ending = r.kind == "shutdown_request" && err == nil
	if err != nil {
		s.complain("refused: %v", err)
		reply = s.failure(r, "BadRequest", err.Error())
	}
	if reply != nil {
		s.reply(sock, r, reply)
	}
}

// unanswered are the types of the standard that clients send and that ask for
// nothing here: those of comms, which are refused when they are opened, and of
// extensions that kernel_info_reply does not announce.
var unanswered = map[string]bool{
	"comm_msg": true, "comm_close": true, "debug_request": true, "create_subshell_request": true,
	"delete_subshell_request": true, "list_subshell_request": true, "connect_request": true,
	"usage_request": true, // not of the standard, but servers ask it every few seconds
}

// failure is the content of a reply to a request that could not be handled. A
// reply to execute_request has a count whatever its status.
func (s *session) failure(r *request, name, value string) map[string]any {
	content := map[string]any{"status": "error", "ename": name, "evalue": value, "traceback": []string{value}}
	if r.kind == "execute_request" { // served by the shell goroutine only
		content["execution_count"] = s.count
	}
	return content
}

// decode reads a request's content; fields of the wrong type are the error.
func (r *request) decode(into any) error {
	err := json.Unmarshal(r.content, into)
	if wrong := (*json.UnmarshalTypeError)(nil); errors.As(err, &wrong) {
		return fmt.Errorf("%s: %s is a JSON %s, not %s", r.kind, wrong.Field, wrong.Value, article(wrong.Type.Kind()))
	}
	return err
}

// article names what a field must be, in the words of JSON.
func article(k reflect.Kind) string {
	switch k {
	case reflect.String:
		return "a string"
	case reflect.Bool:
		return "true or false"
	case reflect.Int, reflect.Float64:
		return "a number of a usable size"
	}
	return "an object of strings"
}

// reply sends the answer to a request to who asked.
func (s *session) reply(sock *zmtp.Router, r *request, content any) {
	kind, ok := strings.CutSuffix(r.kind, "_request")
	if !ok {
		return // comm messages have no reply
	}
	frames, err := s.wire.build(r.identities, kind+"_reply", r.header, content)
	if err != nil {
		frames, err = s.wire.build(r.identities, kind+"_reply", r.header, s.failure(r, "InternalError", err.Error()))
	}
	if err != nil {
		s.log("%v", err)
		return
	}
	sock.Send(r.route, frames...)
}

// publish sends a message to all clients. parent is the request that caused
// it, nil if none did.
func (s *session) publish(kind string, parent *request, content any) error {
	var header json.RawMessage
	if parent != nil {
		header = parent.header
	}
	topic := "kernel." + s.wire.session + "." + kind
	frames, err := s.wire.build([][]byte{[]byte(topic)}, kind, header, content)
	if err != nil {
		return err
	}
	s.socks.iopub.Publish(frames...)
	return nil
}

func (s *session) status(state string, parent *request) {
	s.publish("status", parent, map[string]any{"execution_state": state})
}

// welcome greets a new subscriber (JEP 65), who knows then that nothing
// published from now on will be missed.
func (s *session) welcome(topic string) [][]byte {
	frames, err := s.wire.build([][]byte{[]byte(topic)}, "iopub_welcome", nil, map[string]any{"subscription": topic})
	if err != nil {
		return nil
	}
	return frames
}

// log writes to standard error, which servers show in their own log.
func (s *session) log(format string, args ...any) {
	fmt.Fprintf(os.Stderr, s.info.Implementation+" kernel: "+format+"\n", args...)
}
