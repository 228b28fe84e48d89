package jupyter

import (
	"context"
	"encoding/json"
	"fmt"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
)

type opts = map[string]any

func TestExecutionCount(t *testing.T) {
	t.Parallel()
	p := start(t, "key").client()
	for _, c := range []struct {
		name   string
		option opts
		code   string
		want   float64
	}{
		{"before anything counts", opts{"store_history": false}, "echo", 0},
		{"the first", nil, "echo", 1},
		{"the second", nil, "echo", 2},
		{"a failure counts", nil, "fail", 3},
		{"silent does not", opts{"silent": true}, "echo", 3},
		{"silent does not, whatever store_history says", opts{"silent": true, "store_history": true}, "echo", 3},
		{"not stored does not", opts{"store_history": false}, "echo", 3},
		{"the next", nil, "echo", 4},
	} {
		a := p.execute(c.code, c.option)
		if got := p.reply(a); got["execution_count"] != c.want {
			t.Errorf("%s: reply %v, want %v", c.name, got, c.want)
		}
		for {
			m := p.next(p.iopub)
			var content struct {
				State string  `json:"execution_state"`
				Count float64 `json:"execution_count"`
			}
			json.Unmarshal(m.content, &content)
			if m.kind == "execute_input" && content.Count != c.want {
				t.Errorf("%s: input %v, want %v", c.name, content.Count, c.want)
			}
			if m.parent == a.id && content.State == "idle" {
				break
			}
		}
	}
}

func TestExecuteReply(t *testing.T) {
	t.Parallel()
	p := start(t, "key").client()
	encode := func(v any) string { b, _ := json.Marshal(v); return string(b) }
	got, _ := p.run("echo", opts{"user_expressions": opts{"a": "1+1", "b": "wrong", "c": "missing"}})
	for field, want := range map[string]string{
		"status":  `"ok"`,
		"payload": `[]`,
		"user_expressions": `{"a":{"data":{"text/plain":"1+1"},"metadata":{},"status":"ok"},` +
			`"b":{"ename":"NameError","evalue":"wrong","status":"error","traceback":[]},` +
			`"c":{"ename":"NotEvaluated","evalue":"the kernel did not evaluate c","status":"error","traceback":[]}}`,
	} {
		if encode(got[field]) != want {
			t.Errorf("%s: %s, want %s", field, encode(got[field]), want)
		}
	}
	got, _ = p.run("fail x", opts{"user_expressions": opts{"a": "1+1"}})
	if encode(got["traceback"]) != `["Failure: x"]` || got["ename"] != "Failure" || got["evalue"] != "x" ||
		got["status"] != "error" || encode(got["user_expressions"]) != "{}" {
		t.Errorf("failure: %v", got)
	}
	got, _ = p.run("echo", opts{"user_expressions": nil, "allow_stdin": nil})
	p.wantStatus(got, "ok")
	got, shown := p.run("echo", opts{"user_expressions": []string{"a"}})
	p.wantStatus(got, "error")
	sameLines(t, "user_expressions of a wrong type", shown, []string{"busy", "idle"})
}

func TestStopOnError(t *testing.T) {
	t.Parallel()
	p := start(t, "key").client()
	before := p.execute("deaf 100\nfail first")
	var queued []asked
	for range 3 {
		queued = append(queued, p.execute("echo queued"))
	}
	silent := p.execute("echo silent", opts{"silent": true})
	p.wantStatus(p.reply(before), "error")
	for _, a := range queued {
		got := p.reply(a)
		p.wantStatus(got, "aborted")
		if got["execution_count"] != 1.0 {
			t.Errorf("aborted: %v", got)
		}
	}
	p.wantStatus(p.reply(silent), "ok")
	after := p.execute("echo after") // sent when the failure is known
	p.wantStatus(p.reply(after), "ok")
	p.published(before)
	for _, a := range queued {
		sameLines(t, "aborted", p.published(a), []string{"busy", "idle"})
	}
	p.published(silent)
	sameLines(t, "after", p.published(after), []string{"busy", "input echo after", "stream stdout after\n", "idle"})

	// Time for what a server relays one after another.
	began := time.Now()
	got, _ := p.run("fail")
	if d := time.Since(began); d < settle {
		t.Errorf("the failure was answered after %v", d)
	}
	p.wantStatus(got, "error")

	before = p.execute("deaf 50\nfail first", opts{"stop_on_error": false})
	next := p.execute("echo next")
	p.wantStatus(p.reply(before), "error")
	p.wantStatus(p.reply(next), "ok")
}

func TestInterrupt(t *testing.T) {
	t.Parallel()
	p := start(t, "key").client()
	long := p.execute("sleep 60000")
	behind := p.execute("echo behind")
	waitInput(p, long)
	began := time.Now()
	p.wantStatus(p.reply(p.sendOn(p.control, "interrupt_request", struct{}{})), "ok")
	got := p.reply(long)
	if d := time.Since(began); d > 500*time.Millisecond {
		t.Errorf("it took %v", d)
	}
	if got["status"] != "error" || got["evalue"] != ErrInterrupted.Error() {
		t.Errorf("interrupted: %v", got)
	}
	p.wantStatus(p.reply(behind), "aborted")
	got, _ = p.run("echo next")
	p.wantStatus(got, "ok")
	// with nothing running it is answered and has no after-effect
	p.wantStatus(p.reply(p.sendOn(p.control, "interrupt_request", struct{}{})), "ok")
	got, _ = p.run("sleep 1")
	p.wantStatus(got, "ok")
}

// waitInput reads iopub until the cell runs.
func waitInput(p person, a asked) {
	p.t.Helper()
	for {
		if m := p.next(p.iopub); m.kind == "execute_input" && m.parent == a.id {
			return
		}
	}
}

func TestControlAndHeartbeatWhileShellIsBusy(t *testing.T) {
	t.Parallel()
	p := start(t, "key").client()
	busy := p.execute("deaf 400")
	waitInput(p, busy)
	began := time.Now()
	p.wantStatus(p.reply(p.sendOn(p.control, "kernel_info_request", struct{}{})), "ok")
	if err := p.heartbeat.Send(nil, []byte("beat")); err != nil {
		t.Fatal(err)
	}
	if echo, err := p.heartbeat.Recv(); err != nil || string(echo[1]) != "beat" {
		t.Errorf("%q %v", echo, err)
	}
	if d := time.Since(began); d > 300*time.Millisecond {
		t.Errorf("answered after %v", d)
	}
	p.wantStatus(p.reply(busy), "ok")
}

func TestCellIDs(t *testing.T) {
	t.Parallel()
	for metadata, want := range map[string]string{
		`{}`:                                  `"" []`,
		`{"cellId":"abc"}`:                    `"abc" []`,
		`{"cellId":null,"deletedCells":null}`: `"" []`,
		`{"cellId":"abc","deletedCells":["x","y"]}`:  `"abc" ["x" "y"]`,
		`{"cellId":5,"deletedCells":"x"}`:            `"" []`,
		`{"cellId":{"a":1},"deletedCells":[1,"x"]}`:  `"" []`,
		`{"cellId":"µ","tags":["a"],"trusted":true}`: `"µ" []`,
	} {
		id, deleted := cellIDs(json.RawMessage(metadata))
		if got := fmt.Sprintf("%q %q", id, deleted); got != want {
			t.Errorf("%s: %s, want %s", metadata, got, want)
		}
	}
}

func TestRequestSaysWhoAsks(t *testing.T) {
	t.Parallel()
	p := start(t, "key").client()
	content, err := encode(executeContentOf("who"))
	if err != nil {
		t.Fatal(err)
	}
	frames, err := p.wire.build(nil, "execute_request", nil, json.RawMessage(content))
	if err != nil {
		t.Fatal(err)
	}
	at := len(frames) - 2
	frames[at] = []byte(`{"cellId":"c7","deletedCells":["c1"]}`)
	sign(p.wire, frames)
	if err := p.shell.Send(frames...); err != nil {
		t.Fatal(err)
	}
	for {
		m := p.next(p.iopub)
		if m.kind == "stream" {
			want := fmt.Sprintf("stream stdout cell %q deleted %q session %q count 1\n", "c7", []string{"c1"}, p.wire.session)
			if got := p.short(m); got != want {
				t.Errorf("got %q, want %q", got, want)
			}
			return
		}
	}
}

// 10,000 runs leave memory flat and no goroutine behind.
func TestManyExecutes(t *testing.T) {
	if testing.Short() {
		t.Skip("10,000 executes")
	}
	p := start(t, "key").clientFor(time.Minute)
	run := func(n int) {
		for i := range n {
			_, shown := p.run(fmt.Sprintf("echo %d", i))
			if len(shown) != 4 {
				t.Fatalf("run %d: %q", i, shown)
			}
		}
	}
	state := func() (heap uint64, goroutines int) {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc, runtime.NumGoroutine()
	}
	run(500)
	h0, g0 := state()
	began := time.Now()
	n := 10000
	if raceDetector {
		n = 2000
	}
	run(n)
	each := time.Since(began) / time.Duration(n)
	h1, g1 := state()
	t.Logf("%v each, heap %d -> %d kB", each, h0>>10, h1>>10)
	if h1 > h0+10<<20 {
		t.Errorf("heap grew from %d to %d bytes", h0, h1)
	}
	if g1 > g0 {
		t.Errorf("goroutines: %d, then %d", g0, g1)
	}
}

func TestBigOutput(t *testing.T) {
	t.Parallel()
	p := start(t, "key").clientFor(time.Minute) // 11 MB there and 10 MB back, on a machine with other work
	_, shown := p.run("big 10000000" + strings.Repeat(" ", 1<<20))
	if got := len(shown[2]); got != 10_000_000+len("stream stdout ") {
		t.Errorf("%d bytes came", got)
	}
}

// BenchmarkExecute is one execute at a time, from the request to its reply and
// idle, over Unix sockets with this package's client.
func BenchmarkExecute(b *testing.B) {
	for name, core := range map[string]func() (Core, error){
		"lines":  func() (Core, error) { return &lineCore{}, nil },
		"engine": func() (Core, error) { return NewEngine(nil, nil) },
	} {
		b.Run(name, func(b *testing.B) {
			c := &connection{Transport: "ipc", IP: filepath.Join(b.TempDir(), "k"), Key: "key",
				Shell: 1, IOPub: 2, Stdin: 3, Control: 4, Heartbeat: 5}
			ctx, cancel := context.WithCancel(context.Background())
			defer cancel()
			core, err := core()
			if err != nil {
				b.Fatal(err)
			}
			ended := make(chan error, 1)
			go func() { ended <- serve(ctx, c, core, testInfo) }()
			k, err := connect(ctx, c)
			if err != nil {
				b.Fatal(err)
			}
			code := map[string]string{"lines": "echo", "engine": "x := 1"}[name]
			for b.Loop() {
				id, err := k.send(k.shell, "execute_request", executeContentOf(code))
				if err != nil {
					b.Fatal(err)
				}
				if _, err := k.wait(k.shell, "execute_reply"); err != nil {
					b.Fatal(err)
				}
				for idle := false; !idle; {
					m, err := k.recv(k.iopub)
					if err != nil {
						b.Fatal(err)
					}
					idle = m.parent == id && strings.Contains(string(m.content), `"idle"`)
				}
			}
			cancel()
			<-ended
		})
	}
}
