package cell

import "strings"

// Error is what is wrong in a cell, told to its user.
type Error struct {
	Code   Code
	Line   int // 1-based, in the text the user typed; 0: the cell as a whole
	Column int // 1-based, in characters
	Msg    string
	Hint   string   // what to write instead, "" if there is nothing to say
	Cell   string   // label of the cell, "cell 3"; set by the note
	Frames []string // where it came from, for an error inside a called function: "divide, cell 2 line 4"
}

// Code names the kind of an error; faces show it, tests and tools key on it.
type Code string

func (e *Error) Error() string {
	var b strings.Builder
	b.WriteString(e.Msg)
	if e.Hint != "" {
		b.WriteString(": ")
		b.WriteString(e.Hint)
	}
	return b.String()
}

// The codes.
const (
	CodeSyntax    Code = "syntax"    // the text is not Go
	CodeLiteral   Code = "literal"   // a quantity literal that cannot be read
	CodeRefused   Code = "refused"   // Go that a note does not take, because it would be silently wrong or unsafe
	CodeName      Code = "name"      // an unknown name, or one that cannot be defined
	CodeTwice     Code = "twice"     // a second definition
	CodeForeign   Code = "foreign"   // assignment to a name of another cell
	CodeCycle     Code = "cycle"     // names that need each other
	CodeType      Code = "type"      // what go/types refuses
	CodeDimension Code = "dimension" // an operation on quantities that makes no sense
	CodePanic     Code = "panic"     // the cell panicked
	CodeLimit     Code = "limit"     // steps, depth, memory, time
	CodeStopped   Code = "stopped"   // interrupted
	CodeWaiting   Code = "waiting"   // a name that another cell failed to define
	CodeInternal  Code = "internal"  // our own mistake
)
