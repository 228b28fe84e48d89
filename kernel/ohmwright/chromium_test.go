package main

import (
	"bufio"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

// quietCmd wants nothing to be left of a run: no temporary file, and none of the
// programs whose numbers stand in a file.
func quietCmd(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) > 1 {
		ts.Fatalf("usage: quiet [FILE]")
	}
	for _, f := range args {
		for _, number := range strings.Fields(ts.ReadFile(f)) {
			pid, err := strconv.Atoi(number)
			ts.Check(err)
			for end := time.Now().Add(5 * time.Second); running(pid); time.Sleep(10 * time.Millisecond) {
				if time.Now().After(end) {
					ts.Fatalf("program %d still runs", pid)
				}
			}
		}
	}
	left, err := os.ReadDir(ts.Getenv("TMPDIR"))
	if err != nil || len(left) > 0 {
		ts.Fatalf("temporary files are left: %v, %v", left, err)
	}
}

// running reports whether a program runs. One that has ended stays in Linux's
// table until it is waited for, which not every container does.
func running(pid int) bool {
	if text, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid)); err == nil {
		_, state, _ := strings.Cut(string(text), ") ")
		return !strings.HasPrefix(state, "Z")
	}
	p, err := os.FindProcess(pid)
	return err == nil && p.Signal(syscall.Signal(0)) == nil
}

// aloneCmd wants a file to be the only one in its folder.
func aloneCmd(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: alone FILE")
	}
	list, err := os.ReadDir(filepath.Dir(ts.MkAbs(args[0])))
	if err != nil || len(list) != 1 || list[0].Name() != filepath.Base(args[0]) {
		ts.Fatalf("in the folder of %s are %v, %v", args[0], list, err)
	}
}

// fakeChromium is a browser for tests: it speaks as much of the DevTools protocol
// over its pipes (descriptors 3 and 4, messages end with a zero byte) as printing
// needs, and gives what its first argument says in place of a good PDF.
func fakeChromium() {
	answer := map[string]string{
		"good":  "%PDF-1.4\n%%EOF\n",
		"empty": "",
		"half":  "%PDF-1.4\n1 0 obj <<",
		"other": "<html>not what you asked for</html>",
	}
	in, out := bufio.NewReader(os.NewFile(3, "in")), os.NewFile(4, "out")
	send := func(v any) {
		text, err := json.Marshal(v)
		if err == nil {
			_, err = out.Write(append(text, 0))
		}
		if err != nil {
			os.Exit(4)
		}
	}
	for {
		text, err := in.ReadBytes(0)
		if err != nil {
			return
		}
		var m struct {
			ID                int
			Method, SessionID string
			Params            struct{ URL string }
		}
		if err := json.Unmarshal(text[:len(text)-1], &m); err != nil {
			os.Exit(5)
		}
		result := map[string]any{}
		switch m.Method {
		case "Target.setDiscoverTargets":
			send(map[string]any{"method": "Target.targetCreated", "params": map[string]any{"targetInfo": map[string]any{
				"targetId": "T", "type": "page", "title": "", "url": "about:blank", "attached": false, "canAccessOpener": false,
			}}})
		case "Target.attachToTarget":
			result["sessionId"] = "S"
		case "Runtime.evaluate":
			result["result"] = map[string]any{"type": "object", "objectId": "1"}
		case "Page.navigate":
			event := func(method string, params map[string]any) {
				send(map[string]any{"sessionId": m.SessionID, "method": method, "params": params})
			}
			event("Page.frameNavigated", map[string]any{"frame": map[string]any{"id": "T", "loaderId": "L", "url": m.Params.URL}})
			event("Page.lifecycleEvent", map[string]any{"frameId": "T", "loaderId": "L", "name": "init", "timestamp": 1})
			event("Page.loadEventFired", map[string]any{"timestamp": 2})
			event("Page.frameStoppedLoading", map[string]any{"frameId": "T"})
			result["frameId"], result["loaderId"] = "T", "L"
		case "Page.printToPDF":
			switch os.Args[1] {
			case "gone":
				os.Exit(6)
			case "hangs":
				continue
			}
			result["data"] = base64.StdEncoding.EncodeToString([]byte(answer[os.Args[1]]))
		}
		reply := map[string]any{"id": m.ID, "result": result}
		if m.SessionID != "" {
			reply["sessionId"] = m.SessionID
		}
		send(reply)
		if strings.HasPrefix(m.Method, "Browser.close") {
			return
		}
	}
}
