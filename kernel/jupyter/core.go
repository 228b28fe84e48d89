package jupyter

import (
	"context"
	"errors"
)

// ErrInterrupted is the cause (context.Cause) of the end of an Execute's
// context when the person interrupted it.
var ErrInterrupted = errors.New("interrupted")

// A Core computes. All methods but Shutdown are called one at a time.
type Core interface {
	// Execute runs one cell. It returns soon after ctx ends.
	Execute(ctx context.Context, req ExecuteRequest, out Output) ExecuteReply
	// Complete offers what may stand at the offset in the code.
	Complete(code string, byteOffset int) Completion
	// Inspect tells about what stands at the offset; detail 1 asks for more.
	Inspect(code string, byteOffset int, detail int) (Bundle, bool)
	// IsComplete says whether a console should run the code: "complete",
	// "incomplete" (with the indent of the next line), "invalid", "unknown".
	IsComplete(code string) (status, indent string)
	// Shutdown is called once, before the last reply leaves. An Execute that
	// did not heed its context may still run.
	Shutdown()
}

// ExecuteRequest is a cell to run.
type ExecuteRequest struct {
	Code            string
	CellID          string            // as the front end calls the cell; "" if it does not say
	DeletedCells    []string          // ids of cells deleted since the last request
	Session         string            // of the client; it changes when a page is loaded again
	Count           int               // the number that the front end shows beside the cell
	Silent          bool              // show nothing; Output is closed
	StoreHistory    bool              // counts as an execution
	UserExpressions map[string]string // to evaluate after the code, by name
	AllowStdin      bool
	StopOnError     bool
}

// ExecuteReply is what came of it. What the cell shows goes to Output instead.
type ExecuteReply struct {
	Err             *Error                // nil if all went well
	UserExpressions map[string]Expression // by the names of the request
}

// Error is an error as front ends show it.
type Error struct {
	Name      string // its kind, short
	Value     string // the message
	Traceback []string
}

// Expression is the value of a user expression, or why it has none.
type Expression struct {
	Data     Bundle
	Metadata map[string]any
	Err      *Error
}

// Completion is what may replace the bytes Start to End of the code.
type Completion struct {
	Matches    []string
	Start, End int
	Metadata   map[string]any
}

// A Bundle is one result in several forms: by MIME type text, or any JSON for
// types that end in json.
type Bundle map[string]any

// Output shows results of the cell that runs. It may be used by several
// goroutines until Execute returns; afterwards it does nothing.
type Output interface {
	// DisplayData shows a result. With a displayID (from NewDisplayID) it can
	// be replaced later, also by other cells' executions.
	DisplayData(data Bundle, metadata map[string]any, displayID string)
	// UpdateDisplayData replaces what was shown under displayID, wherever.
	UpdateDisplayData(data Bundle, metadata map[string]any, displayID string)
	// ExecuteResult shows a result that can never change: JupyterLab ignores
	// updates of these.
	ExecuteResult(data Bundle, metadata map[string]any)
	// Stream adds text to "stdout" or "stderr". Small pieces are joined.
	Stream(name, text string)
	// Error shows an error and makes it that of the reply if that has none.
	Error(name, value string, traceback []string)
	// ClearOutput empties the cell's output, or if wait is true, as soon as
	// something new comes.
	ClearOutput(wait bool)
	// NewDisplayID makes an id that no execution of any kernel used before.
	// Every execution needs new ones: nbclient 0.7.2 fails on an id of a cell
	// that ran again.
	NewDisplayID() string
}

// KernelInfo is what the kernel says of itself.
type KernelInfo struct {
	Implementation string
	Version        string
	Language       LanguageInfo
	Banner         string
	HelpLinks      []HelpLink
}

// LanguageInfo describes the language to editors.
type LanguageInfo struct {
	Name              string `json:"name"`
	Version           string `json:"version"`
	Mimetype          string `json:"mimetype"`
	FileExtension     string `json:"file_extension"`
	PygmentsLexer     string `json:"pygments_lexer,omitempty"`
	CodemirrorMode    any    `json:"codemirror_mode,omitempty"`
	NbconvertExporter string `json:"nbconvert_exporter,omitempty"`
}

// HelpLink is an entry of a front end's help menu.
type HelpLink struct {
	Text string `json:"text"`
	URL  string `json:"url"`
}
