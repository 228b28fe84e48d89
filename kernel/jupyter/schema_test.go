package jupyter

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

// schemas are compiled once: every message that a test client receives is held
// against testdata/schema/messages.json.
var schemas = struct {
	sync.Mutex
	compiler *jsonschema.Compiler
	compiled map[string]*jsonschema.Schema
}{compiler: jsonschema.NewCompiler(), compiled: map[string]*jsonschema.Schema{}}

// schema compiles a definition of a file, or the file; it may be used by
// several tests at once.
func schema(place string) (*jsonschema.Schema, error) {
	schemas.Lock()
	defer schemas.Unlock()
	if s := schemas.compiled[place]; s != nil {
		return s, nil
	}
	s, err := schemas.compiler.Compile("testdata/schema/" + place)
	if err == nil {
		schemas.compiled[place] = s
	}
	return s, err
}

// meetsSchema says how a message of the kernel breaks the standard.
func meetsSchema(m *received) error {
	s, err := schema("messages.json#/definitions/" + m.kind)
	if err != nil {
		return fmt.Errorf("a message type that the kernel must not send: %w", err)
	}
	text := fmt.Sprintf(`{"header":%s,"parent_header":%s,"metadata":%s,"content":%s}`, m.header, m.ofAsker, m.metadata, m.content)
	return meets(s, []byte(text))
}

func meets(s *jsonschema.Schema, text []byte) error {
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		return err
	}
	return s.Validate(v)
}

// The check itself: of each type a right message passes and the wrong ones do
// not, in Go and in Python.
func TestSchemaCheck(t *testing.T) {
	t.Parallel()
	python := ""
	t.Run("python", func(t *testing.T) {
		python = needPython(t, map[string]string{"jsonschema": "python3-jsonschema", "jupyter_client": "python3-jupyter-client"})
	})
	type verdict struct {
		Name    string
		Message json.RawMessage
		Right   bool
	}
	var all []verdict
	const head = `{"msg_id":"k_1","session":"k","username":"kernel","date":"2026-01-02T03:04:05.000006Z","version":"5.5","msg_type":"`
	const parent = `{"msg_id":"c_1","msg_type":"execute_request"}`
	for _, c := range []struct {
		kind    string
		parent  string
		content string
		right   bool
	}{
		{"status", parent, `{"execution_state":"busy"}`, true},
		{"status", `{}`, `{"execution_state":"starting"}`, true},
		{"status", `{}`, `{"execution_state":"busy"}`, false},
		{"status", parent, `{"execution_state":"starting"}`, false},
		{"status", parent, `{"execution_state":"asleep"}`, false},
		{"stream", parent, `{"name":"stdout","text":"a"}`, true},
		{"stream", parent, `{"name":"stdin","text":"a"}`, false},
		{"stream", parent, `{"name":"stdout","text":5}`, false},
		{"stream", parent, `{"name":"stdout","data":"a"}`, false}, // so named before 5.0
		{"iopub_welcome", `{}`, `{"subscription":""}`, true},
		{"iopub_welcome", parent, `{"subscription":""}`, false},
		{"execute_input", parent, `{"code":"a","execution_count":1}`, true},
		{"execute_input", parent, `{"code":"a","execution_count":"1"}`, false},
		{"execute_input", parent, `{"code":"a","execution_count":1.5}`, false},
		{"display_data", parent, `{"data":{"text/plain":"a"},"metadata":{},"transient":{}}`, true},
		{"display_data", parent, `{"data":{"text/plain":"a"},"metadata":null,"transient":{}}`, false},
		{"display_data", parent, `{"data":{"text/html":"a"},"metadata":{},"transient":{}}`, false},
		{"display_data", parent, `{"data":{"text/plain":["a"]},"metadata":{},"transient":{}}`, false},
		{"display_data", parent, `{"data":{"plain":"a"},"metadata":{},"transient":{}}`, false},
		{"update_display_data", parent, `{"data":{"text/plain":"a"},"metadata":{},"transient":{"display_id":"d"}}`, true},
		{"update_display_data", parent, `{"data":{"text/plain":"a"},"metadata":{},"transient":{}}`, false},
		{"execute_result", parent, `{"data":{"text/plain":"a"},"metadata":{},"execution_count":1}`, true},
		{"execute_result", parent, `{"data":{"text/plain":"a"},"metadata":{}}`, false},
		{"error", parent, `{"ename":"E","evalue":"v","traceback":[]}`, true},
		{"error", parent, `{"ename":"E","evalue":"v","traceback":null}`, false},
		{"clear_output", parent, `{"wait":true}`, true},
		{"clear_output", parent, `{}`, false},
		{"comm_close", parent, `{"comm_id":"c","data":{}}`, true},
		{"comm_close", parent, `{"data":{}}`, false},
		{"execute_reply", parent, `{"status":"ok","execution_count":1,"payload":[],"user_expressions":{}}`, true},
		{"execute_reply", parent, `{"status":"ok","execution_count":1,"payload":[],"user_expressions":{"a":{"status":"ok","data":{},"metadata":{}}}}`, true},
		{"execute_reply", parent, `{"status":"ok","execution_count":1,"payload":[],"user_expressions":{"a":{"status":"ok"}}}`, false},
		{"execute_reply", parent, `{"status":"ok","execution_count":1}`, false},
		{"execute_reply", parent, `{"status":"error","execution_count":1,"ename":"E","evalue":"v","traceback":["v"]}`, true},
		{"execute_reply", parent, `{"status":"error","ename":"E","evalue":"v","traceback":["v"]}`, false},
		{"execute_reply", parent, `{"status":"error","execution_count":1}`, false},
		{"execute_reply", parent, `{"status":"aborted","execution_count":1}`, true},
		{"execute_reply", `{}`, `{"status":"aborted","execution_count":1}`, false},
		{"complete_reply", parent, `{"status":"ok","matches":[],"cursor_start":0,"cursor_end":0,"metadata":{}}`, true},
		{"complete_reply", parent, `{"status":"ok","matches":null,"cursor_start":0,"cursor_end":0,"metadata":{}}`, false},
		{"complete_reply", parent, `{"status":"ok","matches":[],"cursor_start":-1,"cursor_end":0,"metadata":{}}`, false},
		{"inspect_reply", parent, `{"status":"ok","found":true,"data":{"text/plain":"a"},"metadata":{}}`, true},
		{"inspect_reply", parent, `{"status":"ok","found":false,"data":{},"metadata":{}}`, true},
		{"inspect_reply", parent, `{"status":"ok","found":false,"data":{"text/plain":"a"},"metadata":{}}`, false},
		{"is_complete_reply", parent, `{"status":"incomplete","indent":""}`, true},
		{"is_complete_reply", parent, `{"status":"incomplete"}`, false},
		{"is_complete_reply", parent, `{"status":"ok"}`, false},
		{"history_reply", parent, `{"status":"ok","history":[[1,2,"a"],[1,3,["a",null]]]}`, true},
		{"history_reply", parent, `{"status":"ok","history":[[1,"a"]]}`, false},
		{"comm_info_reply", parent, `{"status":"ok","comms":{}}`, true},
		{"comm_info_reply", parent, `{"status":"ok","comms":[]}`, false},
		{"shutdown_reply", parent, `{"status":"ok","restart":false}`, true},
		{"shutdown_reply", parent, `{"status":"ok"}`, false},
		{"interrupt_reply", parent, `{"status":"ok"}`, true},
		{"interrupt_reply", parent, `{}`, false},
		{"kernel_info_reply", parent, `{"status":"ok","protocol_version":"5.5","implementation":"i","implementation_version":"1","banner":"",` +
			`"language_info":{"name":"n","version":"1","mimetype":"text/plain","file_extension":".txt"}}`, true},
		{"kernel_info_reply", parent, `{"status":"ok","protocol_version":"5.5","implementation":"i","implementation_version":"1","banner":"",` +
			`"language_info":{"name":"n","version":"1","mimetype":"text/plain","file_extension":"txt"}}`, false},
		{"input_request", parent, `{"prompt":"","password":false}`, false}, // a cell cannot ask
	} {
		m := &received{kind: c.kind, header: json.RawMessage(head + c.kind + `"}`), ofAsker: json.RawMessage(c.parent),
			metadata: json.RawMessage("{}"), content: json.RawMessage(c.content)}
		name := c.kind + " " + c.content + " of " + c.parent
		if err := meetsSchema(m); (err == nil) != c.right {
			t.Errorf("%s: right is %v, but the check says %v", name, c.right, err)
		}
		all = append(all, verdict{name, json.RawMessage(fmt.Sprintf(`{"header":%s,"parent_header":%s,"metadata":{},"content":%s}`,
			m.header, m.ofAsker, m.content)), c.right})
	}
	for _, header := range []string{
		`{"msg_id":"k_1","session":"k","username":"kernel","version":"5.5","msg_type":"status"}`,                       // no date
		`{"msg_id":"k_1","session":"k","username":"kernel","date":"2026-01-02","version":"5.5","msg_type":"status"}`,   // no time zone
		`{"msg_id":1,"session":"k","username":"kernel","date":"2026-01-02T03:04:05Z","version":5,"msg_type":"status"}`, // numbers
	} {
		m := &received{kind: "status", header: json.RawMessage(header), ofAsker: json.RawMessage(parent),
			metadata: json.RawMessage("{}"), content: json.RawMessage(`{"execution_state":"busy"}`)}
		if meetsSchema(m) == nil {
			t.Errorf("passed: header %s", header)
		}
		all = append(all, verdict{"header " + header, json.RawMessage(fmt.Sprintf(
			`{"header":%s,"parent_header":%s,"metadata":{},"content":{"execution_state":"busy"}}`, header, parent)), false})
	}
	if python == "" {
		return
	}
	text, err := json.Marshal(all)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(python, "-c", `
import json, sys
sys.path.insert(0, "testdata")
import schema_tap
for v in json.load(sys.stdin):
    if (schema_tap.check(v["Message"]) is None) != v["Right"]:
        print(v["Name"], schema_tap.check(v["Message"]))
`)
	cmd.Stdin = bytes.NewReader(text)
	if out, err := cmd.Output(); err != nil || len(out) > 0 {
		t.Errorf("the Python check differs: %v\n%s", err, out)
	}
}

// A kernel that sends something wrong fails the runs with Python clients.
func TestSchemaTapFindsAWrongKernel(t *testing.T) {
	t.Parallel()
	python := needPython(t, map[string]string{"jsonschema": "python3-jsonschema", "jupyter_client": "python3-jupyter-client"})
	out, err := exec.Command(python, "-c", `
import sys
sys.path.insert(0, "testdata")
import schema_tap
from jupyter_client.session import Session
kernel, client = Session(key=b"k"), Session(key=b"k")
for content in {"name": "stdout", "text": "a"}, {"name": "stdout", "data": "a"}:
    frames = kernel.serialize(kernel.msg("stream", content, parent=client.msg("execute_request")))
    client.deserialize(client.feed_identities(frames)[1])
`).CombinedOutput()
	if err == nil || !strings.Contains(string(out), "schema: 2 of 2 messages, 1 wrong\n  stream: content") {
		t.Errorf("%v\n%s", err, out)
	}
}

// kernel.json as Install writes it.
func TestKernelspecSchema(t *testing.T) {
	t.Parallel()
	s, err := schema("kernelspec.json")
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	k := kernelJSON{Argv: []string{"/bin/x", "kernel", "{connection_file}"}, DisplayName: "X", Language: "go",
		InterruptMode: "message", Metadata: map[string]map[string]any{"x": {"version": "1"}}}
	if err := writeSpec(dir, k); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(dir + "/kernel.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := meets(s, text); err != nil {
		t.Errorf("%s: %v", text, err)
	}
	for _, wrong := range []string{
		`{"display_name":"X","language":"go"}`,
		`{"argv":["x"],"display_name":"X","language":"go"}`,
		`{"argv":["x","{connection_file}"],"display_name":"X","language":"go","interrupt_mode":"maybe"}`,
		`{"argv":["x","{connection_file}"],"display_name":"X","language":"go","metadata":{"debugger":true}}`,
		`{"argv":["x","{connection_file}"],"display_name":"X","language":"go","kernel_protocol_version":"5.5"}`,
	} {
		if meets(s, []byte(wrong)) == nil {
			t.Errorf("passed: %s", wrong)
		}
	}
}
