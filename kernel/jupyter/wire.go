package jupyter

import (
	"bytes"
	"crypto/hmac"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"sync/atomic"
	"time"
	"unicode/utf8"
)

// protocolVersion is announced because what it asks beyond 5.4 is done: the
// welcome on iopub and kernel_info on control.
const protocolVersion = "5.5"

// longestHeader bounds what every message that a request causes carries on,
// as its parent, to every client. Real ones take 200 bytes.
const longestHeader = 64 << 10

// delimiter stands between the routing identities and the message.
var delimiter = []byte("<IDS|MSG>")

var (
	errNoDelimiter = errors.New("message has no <IDS|MSG> frame")
	errFewFrames   = errors.New("message has fewer than a signature and four frames")
	errSignature   = errors.New("message has a wrong signature")
	errReplayed    = errors.New("message was received before")
	errLongHeader  = fmt.Errorf("message header is longer than %d kB", longestHeader>>10)
	errHeader      = errors.New("message header names no msg_id or msg_type")
)

// A request is a message of a client, verified.
type request struct {
	route      []byte   // identity of the connection
	identities [][]byte // frames before the delimiter
	header     json.RawMessage
	id         string // header.msg_id
	kind       string // header.msg_type
	session    string // header.session
	metadata   json.RawMessage
	content    json.RawMessage
	at         time.Time
}

// wire signs what leaves and verifies what comes. It may be used by several
// goroutines.
type wire struct {
	key     []byte // empty: messages are not signed
	session string
	serial  atomic.Uint64
	seen    replayGuard
}

func newWire(key string) *wire {
	return &wire{key: []byte(key), session: newSession()}
}

func newSession() string {
	b := make([]byte, 16)
	rand.Read(b) // never fails
	return hex.EncodeToString(b)
}

// parse takes a message apart after its signature is found right.
func (w *wire) parse(frames [][]byte) (*request, error) {
	at := -1
	for i, f := range frames {
		if bytes.Equal(f, delimiter) {
			at = i
			break
		}
	}
	if at < 0 {
		return nil, errNoDelimiter
	}
	rest := frames[at+1:]
	if len(rest) < 5 {
		return nil, errFewFrames
	}
	signature, header, parent, metadata, content := rest[0], rest[1], rest[2], rest[3], rest[4]
	if len(w.key) > 0 {
		var sent [sha256.Size]byte
		n, err := hex.Decode(sent[:], signature[:min(len(signature), hex.EncodedLen(len(sent)))])
		if err != nil || n != len(sent) || len(signature) != hex.EncodedLen(n) ||
			!hmac.Equal(sent[:], w.mac(header, parent, metadata, content)) {
			return nil, errSignature
		}
		if !w.seen.first(sent) {
			return nil, errReplayed
		}
	}
	if len(header) > longestHeader {
		return nil, errLongHeader
	}
	for _, f := range []struct {
		name string
		data []byte
	}{{"header", header}, {"parent header", parent}, {"metadata", metadata}, {"content", content}} {
		if !isObject(f.data) {
			return nil, fmt.Errorf("message %s is not a JSON object", f.name)
		}
	}
	var h struct { // unknown fields are ignored, of the others only these matter
		ID      string `json:"msg_id"`
		Kind    string `json:"msg_type"`
		Session any    `json:"session"`
	}
	if err := json.Unmarshal(header, &h); err != nil || h.ID == "" || h.Kind == "" {
		return nil, errHeader
	}
	session, _ := h.Session.(string)
	return &request{identities: frames[:at], header: header, id: h.ID, kind: h.Kind, session: session,
		metadata: metadata, content: content}, nil
}

func isObject(b []byte) bool {
	trimmed := bytes.TrimLeft(b, " \t\r\n")
	return len(trimmed) > 0 && trimmed[0] == '{' && utf8.Valid(b) && json.Valid(b)
}

// mac is the HMAC-SHA256 of the four JSON frames.
func (w *wire) mac(frames ...[]byte) []byte {
	m := hmac.New(sha256.New, w.key)
	for _, f := range frames {
		m.Write(f)
	}
	return m.Sum(nil)
}

// header is what leaves with every message.
type header struct {
	ID       string `json:"msg_id"`
	Session  string `json:"session"`
	Username string `json:"username"`
	Date     string `json:"date"`
	Kind     string `json:"msg_type"`
	Version  string `json:"version"`
}

// build makes the frames of a message after prefix, which is the identities of
// the asker or a topic. parent is the request's header byte for byte, nil if
// there is none. Content that is not JSON is an error of whoever made it.
func (w *wire) build(prefix [][]byte, kind string, parent json.RawMessage, content any) ([][]byte, error) {
	c, err := encode(content)
	if err != nil {
		return nil, fmt.Errorf("%s cannot be written as JSON: %w", kind, err)
	}
	h, err := encode(header{
		ID:       w.session + "_" + strconv.FormatUint(w.serial.Add(1), 10),
		Session:  w.session,
		Username: "kernel",
		Date:     time.Now().UTC().Format("2006-01-02T15:04:05.000000Z"),
		Kind:     kind,
		Version:  protocolVersion,
	})
	if err != nil {
		return nil, err
	}
	if parent == nil {
		parent = json.RawMessage("{}")
	}
	metadata := []byte("{}")
	var signature []byte
	if len(w.key) > 0 {
		signature = hex.AppendEncode(nil, w.mac(h, parent, metadata, c))
	}
	frames := make([][]byte, 0, len(prefix)+6)
	return append(append(frames, prefix...), delimiter, signature, h, parent, metadata, c), nil
}

// encode writes JSON without escaping <, > and &, which HTML is full of.
func encode(v any) ([]byte, error) {
	if raw, ok := v.(json.RawMessage); ok { // encoded before
		return raw, nil
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	return bytes.TrimSuffix(b.Bytes(), []byte("\n")), nil
}
