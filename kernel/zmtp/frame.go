package zmtp

import (
	"bufio"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
)

// Flags of a frame (RFC 23, section "Framing").
const (
	flagMore    = 1 << 0
	flagLong    = 1 << 1
	flagCommand = 1 << 2
)

// firstBody is how much memory a frame gets before its body has arrived.
const firstBody = 64 << 10

// frameCost is counted for each frame besides its body, so that a message of
// a million empty frames meets the message limit too.
const frameCost = 64

var (
	errReserved = errors.New("frame has reserved flags set")
	errCommand  = errors.New("command frame claims that more frames follow")
)

// A frame is one unit on the wire. Its body belongs to whoever read it.
type frame struct {
	flags byte
	body  []byte
}

func (f frame) more() bool    { return f.flags&flagMore != 0 }
func (f frame) command() bool { return f.flags&flagCommand != 0 }

// readFrame reads one frame whose body is at most limit bytes long.
func readFrame(r *bufio.Reader, limit int) (frame, error) {
	flags, err := r.ReadByte()
	if err != nil {
		return frame{}, err
	}
	if flags&^(flagMore|flagLong|flagCommand) != 0 {
		return frame{}, errReserved
	}
	if flags&flagCommand != 0 && flags&flagMore != 0 {
		return frame{}, errCommand
	}
	var head [8]byte
	size := uint64(0)
	if flags&flagLong != 0 {
		if _, err := io.ReadFull(r, head[:]); err != nil {
			return frame{}, unexpected(err)
		}
		size = binary.BigEndian.Uint64(head[:])
	} else {
		if _, err := io.ReadFull(r, head[:1]); err != nil {
			return frame{}, unexpected(err)
		}
		size = uint64(head[0])
	}
	if size > uint64(limit) {
		return frame{}, fmt.Errorf("frame of %d bytes is over the limit of %d", size, limit)
	}
	body, err := readBody(r, int(size))
	return frame{flags, body}, err
}

// readBody reads size bytes. The buffer is at most twice what has arrived: the
// size is a stranger's claim.
func readBody(r io.Reader, size int) ([]byte, error) {
	buf := make([]byte, min(size, firstBody))
	n := 0
	for {
		m, err := io.ReadFull(r, buf[n:])
		n += m
		if err != nil {
			return nil, unexpected(err)
		}
		if n == size {
			return buf, nil
		}
		grown := make([]byte, min(size, 2*len(buf)))
		copy(grown, buf)
		buf = grown
	}
}

// unexpected turns an end inside a frame into io.ErrUnexpectedEOF.
func unexpected(err error) error {
	if err == io.EOF {
		return io.ErrUnexpectedEOF
	}
	return err
}

// appendHead appends the flags and length of a frame.
func appendHead(b []byte, flags byte, size int) []byte {
	if size < 256 {
		return append(b, flags, byte(size))
	}
	return binary.BigEndian.AppendUint64(append(b, flags|flagLong), uint64(size))
}

// A packet is one message (or command) ready for the wire. Published packets
// are shared by all peers: nothing changes the parts once they are made.
type packet struct {
	parts [][]byte
	size  int
}

// pack encodes a message. Long bodies are not copied.
func pack(frames [][]byte) packet {
	var p packet
	var buf []byte
	for i, body := range frames {
		var flags byte
		if i < len(frames)-1 {
			flags = flagMore
		}
		buf = appendHead(buf, flags, len(body))
		if len(body) <= 16<<10 {
			buf = append(buf, body...)
			continue
		}
		p.add(buf)
		p.add(body)
		buf = nil
	}
	p.add(buf)
	return p
}

// packCommand encodes a command: its name with a length byte, then its data.
func packCommand(name string, data []byte) packet {
	buf := appendHead(nil, flagCommand, 1+len(name)+len(data))
	buf = append(append(append(buf, byte(len(name))), name...), data...)
	var p packet
	p.add(buf)
	return p
}

func (p *packet) add(b []byte) {
	if len(b) > 0 {
		p.parts = append(p.parts, b)
		p.size += len(b)
	}
}

// splitCommand takes a command's body apart.
func splitCommand(body []byte) (name string, data []byte, err error) {
	if len(body) == 0 || len(body) < 1+int(body[0]) {
		return "", nil, errors.New("command has no name")
	}
	n := 1 + int(body[0])
	return string(body[1:n]), body[n:], nil
}
