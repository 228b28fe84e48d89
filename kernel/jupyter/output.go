package jupyter

import (
	"strconv"
	"sync"
	"time"
	"unicode/utf8"
)

// Streams are sent when this time has passed, or this much has gathered: a
// message for each Print would drown a front end, and a flood of them stays at
// some twenty a second.
const (
	streamBytes = 256 << 10
	streamDelay = 50 * time.Millisecond
)

// output sends what a cell shows. Everything leaves under mu, so the order of
// the calls is the order on the wire, the timer's flush included.
type output struct {
	session *session
	parent  *request
	count   int

	mu     sync.Mutex
	closed bool
	stream string // which one text belongs to
	text   []byte
	timer  *time.Timer
	err    *Error // shown with Error
	result string // text of an ExecuteResult, for the history
}

func (o *output) DisplayData(data Bundle, metadata map[string]any, displayID string) {
	o.display("display_data", data, metadata, displayID)
}

func (o *output) UpdateDisplayData(data Bundle, metadata map[string]any, displayID string) {
	o.display("update_display_data", data, metadata, displayID)
}

func (o *output) display(kind string, data Bundle, metadata map[string]any, displayID string) {
	transient := map[string]any{}
	if displayID != "" {
		transient["display_id"] = displayID
	}
	o.send(kind, data, func(data Bundle) map[string]any {
		return map[string]any{"data": data, "metadata": object(metadata), "transient": transient}
	})
}

func (o *output) ExecuteResult(data Bundle, metadata map[string]any) {
	o.send("execute_result", data, func(data Bundle) map[string]any {
		return map[string]any{"data": data, "metadata": object(metadata), "execution_count": o.count}
	})
	o.mu.Lock()
	defer o.mu.Unlock()
	if text, ok := data["text/plain"].(string); ok {
		o.result = text
	}
}

// send publishes a bundle. One that JSON cannot hold (a NaN, a function) must
// not vanish: a text that says so takes its place.
func (o *output) send(kind string, data Bundle, content func(Bundle) map[string]any) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if o.closed {
		return
	}
	o.flush(true)
	if err := o.session.publish(kind, o.parent, content(data.content())); err != nil {
		o.session.publish(kind, o.parent, content(Bundle{"text/plain": err.Error()}))
	}
}

func (o *output) Error(name, value string, traceback []string) {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.showError(&Error{name, value, traceback})
}

func (o *output) showError(e *Error) {
	if o.err == nil {
		o.err = e
	}
	if o.closed {
		return
	}
	o.flush(true)
	o.session.publish("error", o.parent, map[string]any{"ename": e.Name, "evalue": e.Value, "traceback": lines(e.Traceback)})
}

func (o *output) ClearOutput(wait bool) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if o.closed {
		return
	}
	o.flush(true)
	o.session.publish("clear_output", o.parent, map[string]any{"wait": wait})
}

func (o *output) Stream(name, text string) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if o.closed || text == "" {
		return
	}
	if name != o.stream {
		o.flush(true)
		o.stream = name
	}
	o.text = append(o.text, text...)
	if len(o.text) >= streamBytes {
		o.flush(false)
	}
	if len(o.text) > 0 && o.timer == nil {
		o.timer = time.AfterFunc(streamDelay, o.late)
	}
}

// late is the timer's flush.
func (o *output) late() {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.timer = nil
	if !o.closed {
		o.flush(false)
	}
}

// flush sends the gathered text. Unless all is set, a character whose bytes
// have not all come yet is kept back for the next flush.
func (o *output) flush(all bool) {
	n := len(o.text)
	if !all {
		n = wholeRunes(o.text)
	}
	if n == 0 {
		return
	}
	text := string(o.text[:n])
	if rest := o.text[n:]; len(rest) > 0 {
		o.text = append([]byte(nil), rest...)
	} else {
		o.text = nil
	}
	if o.timer != nil {
		o.timer.Stop()
		o.timer = nil
	}
	o.session.publish("stream", o.parent, map[string]any{"name": o.stream, "text": text})
}

// wholeRunes is the length of text without an unfinished character at its end.
func wholeRunes(text []byte) int {
	for i := 1; i < utf8.UTFMax && i <= len(text); i++ {
		if at := len(text) - i; utf8.RuneStart(text[at]) {
			if !utf8.FullRune(text[at:]) {
				return at
			}
			break
		}
	}
	return len(text)
}

// finish sends what is left and closes the output. It shows the reply's error
// if no error was shown, and returns the one for the reply.
func (o *output) finish(e *Error) *Error {
	o.mu.Lock()
	defer o.mu.Unlock()
	if e != nil && o.err == nil {
		o.showError(e)
	}
	if e == nil {
		e = o.err
	}
	if !o.closed {
		o.flush(true)
	}
	o.closed = true
	if o.timer != nil {
		o.timer.Stop()
	}
	return e
}

func (o *output) NewDisplayID() string {
	return o.session.wire.session + "-" + strconv.FormatInt(o.session.ids.Add(1), 10)
}
