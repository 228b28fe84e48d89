package jupyter

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"sync"
	"time"

	"ohmwright/kernel/zmtp"
)

// linger is how long the last messages may take to leave. jupyter_client
// kills a kernel that has not ended 5 s after its shutdown_request.
const linger = time.Second

// Serve answers the front ends that know the connection file until one of them
// asks for a shutdown (nil is returned, after the reply has left), the process
// that started the kernel ends, or ctx does.
//
// What it drops, and a panic of the Core, it reports on standard error, which
// servers show in their log.
//
// While it runs, SIGINT does nothing: a terminal sends it to all processes, but
// interrupting is the front end's business, which sends a message.
func Serve(ctx context.Context, connectionFile string, core Core, info KernelInfo) error {
	c, err := readConnection(connectionFile)
	if err != nil {
		return err
	}
	ignored := make(chan os.Signal, 1)
	signal.Notify(ignored, os.Interrupt)
	defer signal.Stop(ignored)
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	go watchParent(ctx, func() { cancel(errOrphaned) })
	return serve(ctx, c, core, info)
}

var errOrphaned = errors.New("the process that started the kernel has ended")

func serve(ctx context.Context, c *connection, core Core, info KernelInfo) error {
	s := openSession(ctx, c.Key, core, info)
	socks, err := bind(c, s)
	if err != nil {
		return err
	}
	s.socks = socks
	s.publish("status", nil, map[string]any{"execution_state": "starting"})
	var loops sync.WaitGroup
	loop := func(f func()) {
		loops.Add(1)
		go func() { defer loops.Done(); f() }()
	}
	loop(func() { s.serveShell(socks.shell) })
	loop(func() { s.serveControl(socks.control) })
	loop(func() { echo(socks.heartbeat) })
	loop(func() { discard(socks.stdin) })

	select {
	case <-s.done:
		socks.close(linger)
	case <-ctx.Done(): // nobody waits for an answer
		s.stop()
		socks.close(0)
		err = context.Cause(ctx)
	}
	wait(&loops, linger) // a Core may not heed its context
	return err
}

// wait returns when the group is done or the time is over.
func wait(g *sync.WaitGroup, d time.Duration) {
	done := make(chan struct{})
	go func() { g.Wait(); close(done) }()
	select {
	case <-done:
	case <-time.After(d):
	}
}

// sockets are the five of a kernel.
type sockets struct {
	shell, control, stdin *zmtp.Router
	iopub                 *zmtp.XPub
	heartbeat             *zmtp.Rep
}

// bind opens all five or none.
func bind(c *connection, s *session) (*sockets, error) {
	var k sockets
	var closers []func(time.Duration) error
	var first error
	open := func(what string, err error, close func(time.Duration) error) {
		if err == nil {
			closers = append(closers, close)
		} else if first == nil {
			first = fmt.Errorf("%s of the connection file cannot be opened: %w", what, err)
		}
	}
	options := zmtp.Options{Cut: func(err error) { s.complain("a client was cut off: %v", err) }}
	small := options
	small.MaxMessage, small.QueueIn, small.QueueOut = 1<<20, 1<<20, 1<<20
	var err error
	k.shell, err = zmtp.ListenRouter(c.endpoint(c.Shell), options)
	open("shell_port", err, k.shell.Close)
	k.control, err = zmtp.ListenRouter(c.endpoint(c.Control), options)
	open("control_port", err, k.control.Close)
	k.stdin, err = zmtp.ListenRouter(c.endpoint(c.Stdin), small)
	open("stdin_port", err, k.stdin.Close)
	k.iopub, err = zmtp.ListenXPub(c.endpoint(c.IOPub), options, s.welcome)
	open("iopub_port", err, k.iopub.Close)
	k.heartbeat, err = zmtp.ListenRep(c.endpoint(c.Heartbeat), small)
	open("hb_port", err, k.heartbeat.Close)
	if first != nil {
		for _, close := range closers {
			close(0)
		}
		return nil, first
	}
	return &k, nil
}

// close closes all at the same time.
func (k *sockets) close(linger time.Duration) {
	var g sync.WaitGroup
	for _, close := range []func(time.Duration) error{
		k.shell.Close, k.control.Close, k.stdin.Close, k.iopub.Close, k.heartbeat.Close} {
		g.Add(1)
		go func() { defer g.Done(); close(linger) }()
	}
	g.Wait()
}

// echo is the heartbeat: it must answer while everything else is busy.
func echo(s *zmtp.Rep) {
	for {
		m, err := s.Recv()
		if err != nil {
			return
		}
		s.Reply(m, m.Frames...)
	}
}

// discard empties stdin: no input is ever asked for, so nothing there matters.
func discard(s *zmtp.Router) {
	for {
		if _, err := s.Recv(); err != nil {
			return
		}
	}
}
