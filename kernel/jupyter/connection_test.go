package jupyter

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestConnectionFile(t *testing.T) {
	t.Parallel()
	const ports = `"shell_port":1001,"iopub_port":1002,"stdin_port":1003,"control_port":1004,"hb_port":1005`
	for name, c := range map[string]struct{ file, endpoint, err string }{
		"as Jupyter writes it": {`{` + ports + `,"ip":"127.0.0.1","key":"k","transport":"tcp","signature_scheme":"hmac-sha256","kernel_name":"x","jupyter_session":"a.ipynb"}`,
			"tcp://127.0.0.1:1001", ""},
		"the least":         {`{` + ports + `}`, "tcp://127.0.0.1:1001", ""},
		"all interfaces":    {`{` + ports + `,"ip":"*"}`, "tcp://*:1001", ""},
		"IPv6":              {`{` + ports + `,"ip":"::1"}`, "tcp://[::1]:1001", ""},
		"Unix sockets":      {`{"transport":"ipc","ip":"/run/k","shell_port":1,"iopub_port":2,"stdin_port":3,"control_port":4,"hb_port":5}`, "ipc:///run/k-1", ""},
		"no file":           {"", "", "connection file: open"},
		"not JSON":          {"hello", "", "is not what Jupyter writes"},
		"a port as text":    {`{"shell_port":"1001"}`, "", "is not what Jupyter writes"},
		"no ports":          {`{"ip":"127.0.0.1"}`, "", "names no usable shell_port: 0"},
		"a port too high":   {strings.Replace(`{`+ports+`}`, "1005", "65536", 1), "", "names no usable hb_port: 65536"},
		"a port below zero": {strings.Replace(`{`+ports+`}`, "1002", "-1", 1), "", "names no usable iopub_port: -1"},
		"another transport": {`{` + ports + `,"transport":"udp"}`, "", `transport "udp"`},
		"another scheme":    {`{` + ports + `,"key":"k","signature_scheme":"hmac-md5"}`, "", `signature scheme "hmac-md5"`},
		"empty ip":          {`{` + ports + `,"ip":""}`, "", "empty ip"},
		"encryption":        {`{` + ports + `,"curve_publickey":"p","curve_secretkey":"s"}`, "", "asks for encryption"},
		"a registration file": {`{"kernel_id":"a","registration_ip":"127.0.0.1","registration_port":1001,"key":"k","signature_scheme":"hmac-sha256"}`,
			"", "is a registration file"},
	} {
		path := filepath.Join(t.TempDir(), "c.json")
		if c.file != "" {
			if err := os.WriteFile(path, []byte(c.file), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		got, err := readConnection(path)
		if c.err != "" {
			if err == nil || !strings.Contains(err.Error(), c.err) {
				t.Errorf("%s: %v, want one that says %q", name, err, c.err)
			}
			if e := Serve(context.Background(), path, &lineCore{}, testInfo); e == nil || e.Error() != err.Error() {
				t.Errorf("%s: Serve: %v", name, e)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if e := got.endpoint(got.Shell); e != c.endpoint {
			t.Errorf("%s: %s, want %s", name, e, c.endpoint)
		}
	}
}

// A port that is taken is an error that says which, and leaves none open.
func TestPortInUse(t *testing.T) {
	t.Parallel()
	k := start(t, "key")
	k.client()
	c := *k.conn
	c.IP = filepath.Join(t.TempDir(), "other")
	s := openSession(context.Background(), "", &lineCore{}, testInfo)
	if err := os.Symlink(k.conn.IP+"-5", c.IP+"-5"); err != nil { // the heartbeat's path
		t.Fatal(err)
	}
	_, err := bind(&c, s)
	if err == nil || !strings.HasPrefix(err.Error(), "hb_port") {
		t.Fatalf("got %v", err)
	}
	if _, err := os.Stat(c.IP + "-1"); err == nil {
		t.Error("the shell socket stays open")
	}
	k.client() // the first kernel is not harmed
}
