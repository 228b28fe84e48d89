package jupyter

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"ohmwright/kernel/zmtp"
)

// Each field of each request with every wrong JSON type, missing, null and
// absurd: there is an answer that meets the standard, busy and idle stand
// around it, and the next cell runs.
func TestWrongFields(t *testing.T) {
	t.Parallel()
	p := start(t, "key").clientFor(time.Minute)
	wrong := []any{nil, true, 5, -1e30, 1e30, 2.5, "text", "", []any{}, []any{1}, opts{}, opts{"a": 1}, "\x00\ufffd",
		json.RawMessage(strings.Repeat("[", 500) + strings.Repeat("]", 500))}
	for kind, fields := range map[string]opts{
		"execute_request": {"code": "echo", "silent": false, "store_history": true, "user_expressions": opts{},
			"allow_stdin": false, "stop_on_error": false},
		"complete_request":    {"code": "bur", "cursor_pos": 3},
		"inspect_request":     {"code": "echo", "cursor_pos": 2, "detail_level": 0},
		"is_complete_request": {"code": "echo"},
		"history_request": {"hist_access_type": "tail", "n": 1, "output": false, "raw": true, "session": 0, "start": 0,
			"stop": 1, "pattern": "*", "unique": false},
		"comm_info_request":   {"target_name": "x"},
		"kernel_info_request": {"surplus": 1},
		"interrupt_request":   {"surplus": 1},
	} {
		on := p.shell
		if kind == "interrupt_request" {
			on = p.control
		}
		for field := range fields {
			for i := -1; i < len(wrong); i++ {
				content := opts{}
				for k, v := range fields {
					content[k] = v
				}
				if delete(content, field); i >= 0 {
					content[field] = wrong[i]
				}
				a := p.sendOn(on, kind, content)
				reply := p.reply(a)
				if reply["ename"] == "BadRequest" && !strings.Contains(fmt.Sprint(reply["evalue"]), field) {
					t.Errorf("%s %v: the error does not name the field: %v", kind, content, reply["evalue"])
				}
				shown := p.published(a)
				if shown[0] != "busy" || shown[len(shown)-1] != "idle" {
					t.Errorf("%s %v: %q", kind, content, shown)
				}
			}
		}
	}
	got, _ := p.run("echo")
	p.wantStatus(got, "ok")
}

func TestWrongFieldSaysWhat(t *testing.T) {
	t.Parallel()
	p := start(t, "key").client()
	for _, c := range []struct {
		kind    string
		content any
		want    string
	}{
		{"execute_request", opts{"code": 5}, "execute_request: code is a JSON number, not a string"},
		{"execute_request", opts{}, "execute_request: code is missing"},
		{"execute_request", opts{"code": "", "silent": "yes"}, "execute_request: silent is a JSON string, not true or false"},
		{"complete_request", opts{"code": "", "cursor_pos": "1"}, "complete_request: cursor_pos is a JSON string, not a number of a usable size"},
		{"history_request", opts{"n": 1e30}, "history_request: n is a JSON number 1e+30, not a number of a usable size"},
		{"execute_request", opts{"code": "", "user_expressions": []any{}}, "execute_request: user_expressions is a JSON array, not an object of strings"},
	} {
		if got := p.reply(p.sendOn(p.shell, c.kind, c.content)); got["ename"] != "BadRequest" || got["evalue"] != c.want {
			t.Errorf("%v:\ngot  %v\nwant %s", c.content, got["evalue"], c.want)
		}
	}
	// A cursor anywhere is no fault: the front end may have changed its text.
	for _, pos := range []any{1e30, -1e30, 3.0, nil} {
		got := p.reply(p.sendOn(p.shell, "complete_request", opts{"code": "µΩ", "cursor_pos": pos}))
		if end := got["cursor_end"]; got["status"] != "ok" || end != 2.0 && pos != -1e30 || pos == -1e30 && end != 0.0 {
			t.Errorf("at %v: %v", pos, got)
		}
	}
}

// A stranger and a broken client do not end the kernel, and each fault is said
// once on standard error, however often it comes.
func TestComplaintsAreSaidOnce(t *testing.T) {
	t.Parallel()
	c := &connection{Transport: "ipc", IP: filepath.Join(t.TempDir(), "k"), Key: "key",
		Shell: 1, IOPub: 2, Stdin: 3, Control: 4, Heartbeat: 5}
	file := filepath.Join(t.TempDir(), "c.json")
	if err := c.write(file); err != nil {
		t.Fatal(err)
	}
	var said bytes.Buffer
	cmd := exec.Command(os.Args[0], file)
	cmd.Env = append(os.Environ(), noRaceSleep, asKernel+"=1")
	cmd.Stderr = &said
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { cmd.Process.Kill() })
	p := (&running{t: t, conn: c}).client()
	w := newWire("key")
	for range 30 {
		replay := signed(w, goodHeader, "{}", "{}", "{}")
		for _, frames := range [][][]byte{
			message("x"), message("<IDS|MSG>", "", "{}"), message("<IDS|MSG>", "", goodHeader, "{}", "{}", "{}"),
			signed(w, goodHeader, "{}", "{}", `{"code":`), signed(w, "{\"msg_id\":\"\xff\",\"msg_type\":\"x\"}", "{}", "{}", "{}"),
			signed(w, `{"msg_id":"1","msg_type":"kernel_info_request","x":"`+strings.Repeat("x", longestHeader)+`"}`, "{}", "{}", "{}"),
			replay, replay,
		} {
			if err := p.shell.Send(frames...); err != nil {
				t.Fatal(err)
			}
		}
		p.sendOn(p.shell, "never_heard_of_request", opts{})
		p.sendOn(p.shell, "execute_request", opts{"code": 5})
		p.sendOn(p.shell, "comm_msg", opts{}) // standard, and no fault
		evil, err := zmtp.Dial(context.Background(), c.endpoint(c.Control), "DEALER", nil)
		if err != nil {
			t.Fatal(err)
		}
		evil.Send(make([]byte, 64<<20+1)) // fails half way: it is cut off
		evil.Close()
		if pull, err := zmtp.Dial(context.Background(), c.endpoint(c.Control), "PULL", nil); err == nil {
			pull.Close()
		}
		if raceDetector {
			break
		}
	}
	got, _ := p.run("echo")
	p.wantStatus(got, "ok")
	a := p.sendOn(p.control, "shutdown_request", opts{"restart": false})
	p.wantStatus(p.reply(a), "ok")
	p.close()
	cmd.Wait()
	lines := strings.Split(strings.TrimSpace(said.String()), "\n")
	seen := map[string]bool{}
	for _, line := range lines {
		if seen[line] {
			t.Errorf("said twice: %s", line)
		}
		seen[line] = true
	}
	for _, want := range []string{
		"dropped: message has no <IDS|MSG> frame", "dropped: message has fewer than", "dropped: message has a wrong signature",
		"dropped: message content is not a JSON object", "dropped: message header is not a JSON object",
		"dropped: message header is longer than 64 kB", "dropped: message was received before",
		`ignored: "never_heard_of_request" is not a message that this kernel answers here`,
		"refused: execute_request: code is a JSON number, not a string",
		"a client was cut off: frame of 67108865 bytes is over the limit of 67108864",
		`a client was cut off: peer is a "PULL" socket, which cannot talk to a ROUTER`,
	} {
		if !strings.Contains(said.String(), want) {
			t.Errorf("it does not say %q", want)
		}
	}
	if len(lines) != 11 {
		t.Errorf("%d lines:\n%s", len(lines), said.String())
	}
}

func TestComplaintsAreBounded(t *testing.T) {
	t.Parallel()
	s := openSession(context.Background(), "", &lineCore{}, testInfo)
	for i := range 1000 {
		s.complain("test: complaint %d %s", i, strings.Repeat("x", 1000))
	}
	if n := len(s.told.said); n != mostComplaints {
		t.Errorf("%d were said", n)
	}
}

// FuzzSession: a client that knows the key, or does not, sends any message.
// What the kernel publishes and replies meets the standard, busy and idle stand
// around it, and the kernel answers afterwards.
func FuzzSession(f *testing.F) {
	for _, kind := range []string{"execute_request", "complete_request", "inspect_request", "is_complete_request", "history_request",
		"comm_info_request", "comm_open", "comm_msg", "kernel_info_request", "interrupt_request", "debug_request", "x"} {
		f.Add(true, kind, []byte(`{}`), []byte(`{"cellId":"a"}`), []byte(`{"code":"echo Ω","cursor_pos":4,"n":3,"hist_access_type":"tail","comm_id":"c"}`))
		f.Add(false, kind, []byte(`{}`), []byte(`{}`), []byte(`{"code":"echo"}`))
	}
	f.Add(true, "execute_request", []byte(`null`), []byte(`[]`), []byte(`{"code":"fail","user_expressions":{"a":"b"}}`))
	f.Add(true, "history_request", []byte(`{}`), []byte(`{}`), []byte(`{"hist_access_type":"search","pattern":"*[","n":-5}`))
	f.Fuzz(func(t *testing.T, known bool, kind string, parent, metadata, content []byte) {
		if strings.Contains(string(content), "sleep") || strings.Contains(string(content), "deaf") ||
			strings.Contains(string(content), "big") || strings.Contains(string(content), "burst") {
			return // commands of the test's language that take long
		}
		p := start(t, "key").client()
		name, err := json.Marshal(kind)
		if err != nil {
			t.Fatal(err)
		}
		header := []byte(`{"msg_id":"m","session":"s","msg_type":` + string(name) + `}`)
		frames := [][]byte{delimiter, nil, header, parent, metadata, content}
		if known {
			sign(p.wire, frames)
		} else {
			frames[1] = []byte(strings.Repeat("0", 64))
		}
		for _, on := range []*zmtp.Conn{p.shell, p.control} {
			if err := on.Send(frames...); err != nil {
				t.Fatal(err)
			}
		}
		if known && strings.HasPrefix(kind, "shutdown") {
			return
		}
		shell := p.sendOn(p.shell, "kernel_info_request", opts{})
		control := p.sendOn(p.control, "kernel_info_request", opts{})
		p.wantStatus(p.reply(shell), "ok")
		p.wantStatus(p.reply(control), "ok")
		open := map[string]int{}
		for ended := 0; ended < 2; {
			m := p.next(p.iopub)
			switch s := p.short(m); s {
			case "busy":
				open[m.parent]++
			case "idle":
				if open[m.parent]--; open[m.parent] < 0 {
					t.Fatalf("idle of %s before busy", m.parent)
				}
				if m.parent == shell.id || m.parent == control.id {
					ended++
				}
			case "starting":
			default:
				if open[m.parent] < 1 {
					t.Fatalf("%s of %s outside busy and idle", m.kind, m.parent)
				}
			}
		}
		if n := open["m"]; n != 0 || !known && len(open) != 2 {
			t.Fatalf("%d busy without idle; %v", n, open)
		}
	})
}
