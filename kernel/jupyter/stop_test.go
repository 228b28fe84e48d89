package jupyter

import (
	"context"
	"errors"
	"path/filepath"
	"testing"
	"time"
)

func TestShutdown(t *testing.T) {
	t.Parallel()
	for _, restart := range []bool{false, true} {
		k := start(t, "key")
		p := k.client()
		p.run("echo")
		a := p.sendOn(p.control, "shutdown_request", opts{"restart": restart})
		if got := p.reply(a); got["status"] != "ok" || got["restart"] != restart {
			t.Errorf("%v", got)
		}
		if !k.core.shutdown.Load() {
			t.Error("the reply came before the core was shut down")
		}
		sameLines(t, "shutdown", p.published(a), []string{"busy", "idle"})
		p.close()
		k.wantEnd(testPatience)
	}
}

// The cell that runs is stopped, and its client learns so before the end.
func TestShutdownWhileACellRuns(t *testing.T) {
	t.Parallel()
	k := start(t, "key")
	p := k.client()
	cell := p.execute("sleep 60000")
	queued := p.execute("echo queued")
	waitInput(p, cell)
	a := p.sendOn(p.control, "shutdown_request", opts{"restart": false})
	p.wantStatus(p.reply(a), "ok")
	p.wantStatus(p.reply(cell), "error")
	var order []string
	for len(order) == 0 || order[len(order)-1] != "shutdown idle" {
		m := p.next(p.iopub)
		if s := p.short(m); s == "idle" || m.kind == "execute_input" {
			order = append(order, map[string]string{cell.id: "cell ", queued.id: "queued ", a.id: "shutdown "}[m.parent]+s)
		}
	}
	sameLines(t, "at the end", order, []string{"cell idle", "shutdown idle"})
	p.close()
	k.wantEnd(testPatience)
}

func TestShutdownWhileACellDoesNotStop(t *testing.T) {
	t.Parallel()
	k := start(t, "key")
	p := k.client()
	waitInput(p, p.execute("deaf 8000"))
	began := time.Now()
	a := p.sendOn(p.control, "shutdown_request", opts{"restart": false})
	p.wantStatus(p.reply(a), "ok")
	sameLines(t, "shutdown", p.published(a), []string{"busy", "idle"})
	k.wantEnd(5*time.Second - time.Since(began)) // then jupyter_client kills it
}

// Clients before version 5.4 send it on shell.
func TestShutdownOnShell(t *testing.T) {
	t.Parallel()
	k := start(t, "key")
	p := k.client()
	a := p.sendOn(p.shell, "shutdown_request", opts{"restart": false})
	p.wantStatus(p.reply(a), "ok")
	sameLines(t, "shutdown", p.published(a), []string{"busy", "idle"})
	k.wantEnd(testPatience)
}

func TestServeEndsWithItsContext(t *testing.T) {
	t.Parallel()
	c := &connection{Transport: "ipc", IP: filepath.Join(t.TempDir(), "k"), Shell: 1, IOPub: 2, Stdin: 3, Control: 4, Heartbeat: 5}
	file := filepath.Join(t.TempDir(), "c.json")
	if err := c.write(file); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancelCause(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- Serve(ctx, file, &lineCore{}, testInfo) }()
	k := &running{t: t, conn: c}
	p := k.client()
	waitInput(p, p.execute("sleep 60000"))
	why := errors.New("enough")
	cancel(why)
	select {
	case err := <-ended:
		if !errors.Is(err, why) {
			t.Errorf("ended with %v", err)
		}
	case <-time.After(testPatience):
		t.Fatal("it goes on")
	}
}
