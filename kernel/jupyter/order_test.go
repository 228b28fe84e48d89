package jupyter

import (
	"fmt"
	"strings"
	"testing"
)

// What every message type causes, in order. From the messaging standard 5.5
// ("Messages on the shell (ROUTER/DEALER) channel" and following): busy first,
// idle last around every request, on both channels.
func TestOrderOfMessages(t *testing.T) {
	t.Parallel()
	k := start(t, "key")
	p := k.client()
	type m = map[string]any
	for _, c := range []struct {
		channel, kind string
		content       any
		reply         string // "" if the standard has none
		shown         []string
	}{
		{"shell", "kernel_info_request", m{}, "kernel_info_reply", nil},
		{"control", "kernel_info_request", m{}, "kernel_info_reply", nil},
		{"shell", "execute_request", executeContentOf("echo a\nresult 7"), "execute_reply",
			[]string{"input echo a\nresult 7", "stream stdout a\n", "execute_result 7"}},
		{"shell", "execute_request", executeContentOf("show A 1\nset A 2\nclear"), "execute_reply",
			[]string{"input show A 1\nset A 2\nclear", "display_data 1", "update_display_data 2", "clear_output"}},
		{"shell", "execute_request", executeContentOf("echo a\nfail b"), "execute_reply",
			[]string{"input echo a\nfail b", "stream stdout a\n", "error Failure: b"}},
		{"shell", "execute_request", executeContentOf("both b"), "execute_reply",
			[]string{"input both b", "error Failure: b"}},
		{"shell", "execute_request", executeContentOf("panic b"), "execute_reply",
			[]string{"input panic b", "error InternalError: the kernel failed while it ran this cell: b"}},
		{"shell", "execute_request", executeContentOf("echo a", m{"silent": true}), "execute_reply", nil},
		{"shell", "execute_request", executeContentOf("fail a", m{"silent": true}), "execute_reply", nil},
		{"shell", "execute_request", executeContentOf(""), "execute_reply", []string{"input "}},
		{"shell", "execute_request", executeContentOf("echo a\nstderr b\necho c\nshow D d\necho e"), "execute_reply",
			[]string{"input echo a\nstderr b\necho c\nshow D d\necho e", "stream stdout a\n", "stream stderr b\n",
				"stream stdout c\n", "display_data d", "stream stdout e\n"}},
		{"shell", "execute_request", executeContentOf("nan"), "execute_reply", []string{"input nan",
			"display_data display_data cannot be written as JSON: json: unsupported type: func()"}},
		{"shell", "complete_request", m{"code": "b", "cursor_pos": 1}, "complete_reply", nil},
		{"shell", "complete_request", m{"code": "panic", "cursor_pos": 1}, "complete_reply", nil},
		{"shell", "inspect_request", m{"code": "echo", "cursor_pos": 1, "detail_level": 0}, "inspect_reply", nil},
		{"shell", "is_complete_request", m{"code": "echo"}, "is_complete_reply", nil},
		{"shell", "history_request", m{"hist_access_type": "tail", "n": 2, "output": false, "raw": true}, "history_reply", nil},
		{"shell", "comm_info_request", m{}, "comm_info_reply", nil},
		{"shell", "comm_open", m{"comm_id": "c1", "target_name": "nobody", "data": m{}}, "", []string{"comm_close"}},
		{"shell", "comm_msg", m{"comm_id": "c1", "data": m{}}, "", nil},
		{"shell", "comm_close", m{"comm_id": "c1", "data": m{}}, "", nil},
		{"control", "interrupt_request", m{}, "interrupt_reply", nil},
		{"control", "debug_request", m{"type": "request", "command": "initialize"}, "", nil},
		{"control", "create_subshell_request", m{}, "", nil},
		{"shell", "never_heard_of_request", m{}, "", nil},
		{"shell", "execute_request", m{"code": 5}, "execute_reply", nil},
		{"shell", "complete_request", m{"cursor_pos": "a"}, "complete_reply", nil},
		{"shell", "comm_open", m{"comm_id": 5}, "", nil},
		{"control", "shutdown_request", m{"restart": "perhaps"}, "shutdown_reply", nil},
		{"control", "shutdown_request", m{"restart": true}, "shutdown_reply", nil},
	} {
		on := p.shell
		if c.channel == "control" {
			on = p.control
		}
		a := p.sendOn(on, c.kind, c.content)
		want := append(append([]string{"busy"}, c.shown...), "idle")
		sameLines(t, c.channel+" "+c.kind, p.published(a), want)
		if c.reply == "" {
			p.quiet(on)
			continue
		}
		if got := p.reply(a); got["msg_type"] != c.reply {
			t.Errorf("%s: reply %v", c.kind, got)
		}
		order := append(append([]string{"busy"}, c.shown...), "reply", "idle")
		for i := 1; i < len(order); i++ {
			if before, after := p.made[a.id+" "+order[i-1]], p.made[a.id+" "+order[i]]; before == 0 || before >= after {
				t.Errorf("%s: %s was message %d of the kernel, %s message %d", c.kind, order[i-1], before, order[i], after)
			}
		}
	}
	k.wantEnd(testPatience)
}

func TestKernelInfo(t *testing.T) {
	t.Parallel()
	p := start(t, "key").client()
	got := p.reply(p.sendOn(p.shell, "kernel_info_request", struct{}{}))
	info := got["language_info"].(map[string]any)
	if got["protocol_version"] != "5.5" || got["status"] != "ok" || got["implementation"] != "lines" ||
		got["implementation_version"] != "1.0" || got["banner"] != "one command a line" || got["debugger"] != false ||
		info["name"] != "lines" || info["mimetype"] != "text/plain" || info["file_extension"] != ".txt" || info["version"] != "1.0" {
		t.Errorf("%v", got)
	}
	for _, list := range []string{"supported_features", "help_links"} {
		if l, ok := got[list].([]any); !ok || len(l) != 0 {
			t.Errorf("%s: %v", list, got[list])
		}
	}
	if _, there := info["codemirror_mode"]; there {
		t.Error("an empty field is sent")
	}
}

// Every new subscription is greeted, alone and first (JEP 65).
func TestWelcome(t *testing.T) {
	t.Parallel()
	k := start(t, "key")
	first := k.client() // checks the first one
	if err := first.iopub.Subscribe("kernel."); err != nil {
		t.Fatal(err)
	}
	m := first.next(first.iopub)
	if m.kind != "iopub_welcome" || string(m.content) != `{"subscription":"kernel."}` || string(m.ofAsker) != "{}" || m.topic != "kernel." {
		t.Errorf("%s %s, parent %s, topic %s", m.kind, m.content, m.ofAsker, m.topic)
	}
	k.client()
	first.quiet(first.iopub) // the second client's welcome is not for the first
}

func TestPanicIsAnErrorReply(t *testing.T) {
	t.Parallel()
	p := start(t, "key").client()
	got := p.reply(p.sendOn(p.shell, "complete_request", opts{"code": "panic", "cursor_pos": 1}))
	if got["status"] != "error" || got["ename"] != "InternalError" || !strings.Contains(fmt.Sprint(got["evalue"]), "in Complete") {
		t.Errorf("%v", got)
	}
}

func TestTwoClients(t *testing.T) {
	t.Parallel()
	k := start(t, "key")
	a, b := k.client(), k.client()
	var fromA, fromB []asked
	for range 100 {
		fromA = append(fromA, a.execute("echo a"))
		fromB = append(fromB, b.execute("echo b"))
	}
	for i := range fromA {
		a.wantStatus(a.reply(fromA[i]), "ok")
		b.wantStatus(b.reply(fromB[i]), "ok")
	}
	want := []string{"busy", "input echo b", "stream stdout b\n", "idle"}
	for i := range fromB { // each sees what the other did too
		sameLines(t, "a sees b", a.published(fromB[i]), want)
	}
	a.quiet(a.shell)
}

func TestDisplayIDsAreNew(t *testing.T) {
	t.Parallel()
	p := start(t, "key").client()
	seen := map[string]bool{}
	for range 3 {
		a := p.execute("show A 1\nshow B 2")
		for n := 0; n < 2; {
			m := p.next(p.iopub)
			if m.kind != "display_data" {
				continue
			}
			n++
			id := string(m.content[strings.Index(string(m.content), "transient"):])
			if !strings.Contains(id, "display_id") || seen[id] {
				t.Errorf("display id again: %s", m.content)
			}
			seen[id] = true
		}
		p.published(a)
	}
}
