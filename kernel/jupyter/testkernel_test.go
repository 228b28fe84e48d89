package jupyter

import (
	"context"
	"fmt"
	"os"
	"runtime"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"time"
)

// asKernel makes this test binary a kernel: the clients of other languages
// that some tests start need a process to talk to. Its value is the core:
// "engine", or "1" for the lineCore.
const asKernel = "OHMWRIGHT_TEST_KERNEL"

func TestMain(m *testing.M) {
	if os.Getenv(asParent) != "" {
		beParent(os.Args[len(os.Args)-1])
		os.Exit(0)
	}
	if os.Getenv(asKernel) == "" {
		os.Exit(m.Run())
	}
	var core Core = &lineCore{}
	var err error
	if os.Getenv(asKernel) == "engine" {
		core, err = NewEngine(nil, nil)
	}
	if err == nil {
		err = Serve(context.Background(), os.Args[len(os.Args)-1], core, testInfo)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	os.Exit(0)
}

var testInfo = KernelInfo{
	Implementation: "lines",
	Version:        "1.0",
	Language:       LanguageInfo{Name: "lines", Version: "1.0", Mimetype: "text/plain", FileExtension: ".txt"},
	Banner:         "one command a line",
}

// lineCore is a Core whose language is one command a line:
//
//	echo [TEXT]        prints ok, or the text
//	big N              prints N bytes at once
//	burst N            prints N lines, one by one
//	stderr TEXT        prints to stderr
//	stat               prints the number of goroutines
//	show LABEL TEXT    displays the text; set replaces it later
//	set LABEL TEXT     replaces what show displayed, in whatever cell
//	result TEXT        gives an execute_result
//	nan                displays what JSON cannot hold
//	clear              clears the output
//	fail TEXT          fails
//	both TEXT          shows an error and fails with it
//	panic TEXT         panics
//	sleep MS           waits, until it is interrupted
//	deaf MS            waits and does not heed an interrupt
//	who                prints what the request says of itself
type lineCore struct {
	ids      map[string]string
	shutdown atomic.Bool
}

func (c *lineCore) Execute(ctx context.Context, req ExecuteRequest, out Output) ExecuteReply {
	for line := range strings.Lines(req.Code) {
		cmd, rest, _ := strings.Cut(strings.TrimSpace(line), " ")
		if e := c.line(ctx, cmd, rest, req, out); e != nil {
			return ExecuteReply{Err: e}
		}
	}
	reply := ExecuteReply{UserExpressions: map[string]Expression{}}
	for name, x := range req.UserExpressions {
		switch x {
		case "missing":
		case "wrong":
			reply.UserExpressions[name] = Expression{Err: &Error{Name: "NameError", Value: "wrong"}}
		default:
			reply.UserExpressions[name] = Expression{Data: Bundle{"text/plain": x}}
		}
	}
	return reply
}

func (c *lineCore) line(ctx context.Context, cmd, rest string, req ExecuteRequest, out Output) *Error {
	n, _ := strconv.Atoi(rest)
	label, text, _ := strings.Cut(rest, " ")
	switch cmd {
	case "":
	case "echo":
		if rest == "" {
			rest = "ok"
		}
		out.Stream("stdout", rest+"\n")
	case "big":
		out.Stream("stdout", strings.Repeat("x", n))
	case "burst":
		for i := range n {
			out.Stream("stdout", strconv.Itoa(i)+"\n")
		}
	case "stderr":
		out.Stream("stderr", rest+"\n")
	case "stat":
		out.Stream("stdout", fmt.Sprintf("%d goroutines\n", runtime.NumGoroutine()))
	case "show":
		if c.ids == nil {
			c.ids = map[string]string{}
		}
		c.ids[label] = out.NewDisplayID()
		out.DisplayData(Bundle{"text/plain": text}, nil, c.ids[label])
	case "set":
		out.UpdateDisplayData(Bundle{"text/plain": text}, nil, c.ids[label])
	case "result":
		out.ExecuteResult(Bundle{"text/plain": rest}, nil)
	case "nan":
		out.DisplayData(Bundle{"application/json": func() {}}, nil, "")
	case "clear":
		out.ClearOutput(true)
	case "fail":
		return &Error{Name: "Failure", Value: rest, Traceback: []string{"Failure: " + rest}}
	case "both":
		out.Error("Failure", rest, []string{"Failure: " + rest})
		return &Error{Name: "Failure", Value: rest, Traceback: []string{"Failure: " + rest}}
	case "panic":
		panic(rest)
	case "sleep":
		select {
		case <-time.After(time.Duration(n) * time.Millisecond):
		case <-ctx.Done():
			return &Error{Name: "Interrupted", Value: context.Cause(ctx).Error()}
		}
	case "deaf":
		time.Sleep(time.Duration(n) * time.Millisecond)
	case "who":
		out.Stream("stdout", fmt.Sprintf("cell %q deleted %q session %q count %d\n", req.CellID, req.DeletedCells, req.Session, req.Count))
	default:
		return &Error{Name: "Unknown", Value: "no command " + cmd}
	}
	return nil
}

var lineCommands = []string{"echo", "big", "burst", "stat", "show", "set", "result", "fail", "sleep"}

func (c *lineCore) Complete(code string, at int) Completion {
	if code == "panic" {
		panic("in Complete")
	}
	start := strings.LastIndexAny(code[:at], " \n") + 1
	var found []string
	for _, name := range lineCommands {
		if strings.HasPrefix(name, code[start:at]) {
			found = append(found, name)
		}
	}
	return Completion{Matches: found, Start: start, End: at}
}

func (c *lineCore) Inspect(code string, at, detail int) (Bundle, bool) {
	start := strings.LastIndexAny(code[:at], " \n") + 1
	for _, name := range lineCommands {
		if strings.HasPrefix(code[start:], name) {
			return Bundle{"text/plain": fmt.Sprintf("%s at byte %d, detail %d", name, at, detail)}, true
		}
	}
	return nil, false
}

func (c *lineCore) IsComplete(code string) (string, string) {
	switch {
	case strings.HasSuffix(code, "{"):
		return "incomplete", "\t"
	case strings.HasPrefix(code, "}"):
		return "invalid", ""
	}
	return "complete", ""
}

func (c *lineCore) Shutdown() { c.shutdown.Store(true) }
