package zmtp

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
)

const (
	greetingSize = 64
	// readyLimit bounds the READY command; real ones take some 40 bytes.
	readyLimit = 8 << 10
)

// greeting is what both sides send first: signature, version 3.0, mechanism
// NULL, not a server (which NULL has none of), filler.
func greeting() []byte {
	g := make([]byte, greetingSize)
	g[0], g[9] = 0xff, 0x7f
	g[10], g[11] = 3, 0
	copy(g[12:32], "NULL")
	return g
}

// A hello is what a peer says of itself in its READY command.
type hello struct {
	socketType string
	identity   []byte
}

// shakeHands does one side of the handshake. The caller has set a deadline.
func shakeHands(r *bufio.Reader, w io.Writer, own hello) (hello, error) {
	if _, err := w.Write(greeting()); err != nil {
		return hello{}, err
	}
	if err := readGreeting(r); err != nil {
		return hello{}, err
	}
	ready := packCommand("READY", appendProperties(nil, own))
	if _, err := w.Write(ready.parts[0]); err != nil {
		return hello{}, err
	}
	return readReady(r)
}

// readGreeting refuses as soon as it can tell: a browser or a port scanner
// that speaks something else must not hold the connection to its deadline.
func readGreeting(r *bufio.Reader) error {
	var g [greetingSize]byte
	if _, err := io.ReadFull(r, g[:1]); err != nil {
		return err
	}
	if g[0] != 0xff {
		return errors.New("peer does not speak ZMTP")
	}
	if _, err := io.ReadFull(r, g[1:11]); err != nil {
		return unexpected(err)
	}
	if g[9]&1 == 0 {
		return errors.New("peer does not speak ZMTP 2.0 or later")
	}
	if g[10] < 3 {
		return fmt.Errorf("peer speaks ZMTP %d, version 3 is needed", g[10])
	}
	if _, err := io.ReadFull(r, g[11:]); err != nil {
		return unexpected(err)
	}
	if mechanism := string(bytes.TrimRight(g[12:32], "\x00")); mechanism != "NULL" {
		return fmt.Errorf("peer asks for security mechanism %q, only NULL is served", mechanism)
	}
	return nil
}

func readReady(r *bufio.Reader) (hello, error) {
	f, err := readFrame(r, readyLimit)
	if err != nil {
		return hello{}, err
	}
	if !f.command() {
		return hello{}, errors.New("peer sent a message before READY")
	}
	name, data, err := splitCommand(f.body)
	switch {
	case err != nil:
		return hello{}, err
	case name == "ERROR" && len(data) > 0:
		return hello{}, fmt.Errorf("peer refuses: %q", data[1:])
	case name != "READY":
		return hello{}, fmt.Errorf("peer sent %q before READY", name)
	}
	return parseProperties(data)
}

func appendProperties(b []byte, h hello) []byte {
	add := func(name string, value []byte) {
		b = append(append(b, byte(len(name))), name...)
		b = append(binary.BigEndian.AppendUint32(b, uint32(len(value))), value...)
	}
	add("Socket-Type", []byte(h.socketType))
	if h.socketType == "ROUTER" || h.socketType == "DEALER" || h.socketType == "REQ" {
		add("Identity", h.identity)
	}
	return b
}

func parseProperties(b []byte) (hello, error) {
	var h hello
	broken := errors.New("READY has broken properties")
	for len(b) > 0 {
		n := int(b[0])
		if n == 0 || len(b) < 1+n+4 {
			return h, broken
		}
		name := b[1 : 1+n]
		size := binary.BigEndian.Uint32(b[1+n:])
		b = b[1+n+4:]
		if uint64(size) > uint64(len(b)) {
			return h, broken
		}
		value := b[:size]
		b = b[size:]
		switch { // names are compared without case, RFC 23
		case bytes.EqualFold(name, []byte("Socket-Type")):
			h.socketType = string(value)
		case bytes.EqualFold(name, []byte("Identity")):
			if len(value) > 255 {
				return h, errors.New("identity is longer than 255 bytes")
			}
			h.identity = value
		}
	}
	if h.socketType == "" {
		return h, errors.New("READY names no socket type")
	}
	return h, nil
}
