package cell

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// fault turns what stopped the run into an error at the user's text.
func (r *runner) fault(err error) *Error {
	var f *exec.Fault
	if !errors.As(err, &f) {
		return &Error{Code: CodeInternal, Line: 1, Column: 1, Msg: err.Error()}
	}
	e := &Error{}
	var frames []string
	msg := f.Msg
	for i, fr := range append([]exec.Frame{{Pos: f.Pos}}, f.Stack...) {
		file := r.fset.File(fr.Pos)
		if file == nil {
			continue
		}
		if strings.HasSuffix(file.Name(), mustName) {
			msg = strings.TrimPrefix(msg, "panic: ") // a function's error, not a panic of the user's
			continue
		}
		if file.Name() == r.ID {
			e = r.errorAt(fr.Pos, "", "", "")
			break
		}
		if i > 0 { // the first is where it happened, which the stack has as well
			frames = append(frames, fmt.Sprintf("%s, %s line %d", plainFunc(fr.Func), r.env.Label(file.Name()), file.Line(fr.Pos)))
		}
	}
	e.Frames = frames
	e.Msg, e.Hint, e.Code = msg, f.Hint, CodePanic
	var q *units.Error
	switch {
	case errors.Is(f.Err, context.DeadlineExceeded):
		e.Code, e.Msg, e.Hint = CodeLimit, "the cell did not finish in the time allowed", "look for a loop that does not end, or allow more time with --timeout"
	case errors.Is(f.Err, context.Canceled):
		e.Code, e.Msg = CodeStopped, "the cell was interrupted"
	case errors.As(f.Err, &q):
		e.Code, e.Msg, e.Hint = CodeDimension, q.Msg, q.Hint
	case errors.Is(f.Err, exec.ErrLimit):
		e.Code = CodeLimit
	}
	if e.Hint == "" {
		e.Hint = remedy(e.Msg)
	}
	if e.Line == 0 {
		e.Line, e.Column = 1, 1
	}
	return e
}

// remedy says what to do about the panics of Go itself.
func remedy(msg string) string {
	switch {
	case strings.Contains(msg, "index out of range"), strings.Contains(msg, "slice bounds out of range"):
		return "indices run from 0 to one below the length; test with len first"
	case strings.Contains(msg, "nil map"):
		return "make the map first, m := map[string]Quantity{}"
	case strings.Contains(msg, "divide by zero"):
		return "test the divisor first"
	case strings.Contains(msg, "nil pointer"):
		return "the pointer, function or interface has no value yet; give it one first"
	case strings.Contains(msg, "interface conversion"):
		return "ask with v, ok := x.(T) where the type is not sure"
	case strings.Contains(msg, "cannot add"), strings.Contains(msg, "cannot subtract"), strings.Contains(msg, "cannot compare"):
		return "both sides need the same dimension"
	}
	return ""
}

func plainFunc(name string) string {
	name = strings.TrimPrefix(name, NotePath+".")
	if strings.HasPrefix(name, runName) {
		return "its own code"
	}
	return name
}
