package zmtp

import (
	"bufio"
	"bytes"
	"errors"
	"io"
	"runtime"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// RFC 23: flags (1 more, 2 long, 4 command), then one or eight bytes of length.
func TestPack(t *testing.T) {
	t.Parallel()
	long := strings.Repeat("x", 300)
	for want, frames := range map[string][]string{
		"\x00\x00":                   {""},
		"\x00\x02hi":                 {"hi"},
		"\x01\x01a\x01\x00\x00\x01b": {"a", "", "b"},
		"\x02\x00\x00\x00\x00\x00\x00\x01\x2c" + long:               {long},
		"\x03\x00\x00\x00\x00\x00\x00\x01\x2c" + long + "\x00\x01z": {long, "z"},
	} {
		if got := joined(pack(bytesOf(frames))); got != want {
			t.Errorf("%q: got %q, want %q", frames, got, want)
		}
	}
	if got := joined(packCommand("PONG", []byte("ctx"))); got != "\x04\x08\x04PONGctx" {
		t.Errorf("PONG: %q", got)
	}
}

func bytesOf(s []string) (b [][]byte) {
	for _, x := range s {
		b = append(b, []byte(x))
	}
	return b
}

func joined(p packet) string { return string(bytes.Join(p.parts, nil)) }

// What is packed is read back, at every length around the borders of the
// format (255/256), of the copy (16 KiB) and of the growing buffer (64 KiB).
func TestPackReadBack(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		border := rapid.SampledFrom([]int{0, 0, 2, 255, 256, 16 << 10, firstBody, 2 * firstBody})
		frames := make([][]byte, rapid.IntRange(1, 5).Draw(t, "frames"))
		for i := range frames {
			n := max(0, border.Draw(t, "near")+rapid.IntRange(-2, 2).Draw(t, "off"))
			frames[i] = bytes.Repeat([]byte{byte('a' + i)}, n)
		}
		p := pack(frames)
		if size := len(joined(p)); size != p.size {
			t.Fatalf("size %d counted, %d real", p.size, size)
		}
		r := bufio.NewReader(strings.NewReader(joined(p)))
		for i, want := range frames {
			f, err := readFrame(r, 1<<20)
			if err != nil || !bytes.Equal(f.body, want) || f.more() != (i < len(frames)-1) || f.command() {
				t.Fatalf("frame %d: %v, %d bytes for %d", i, err, len(f.body), len(want))
			}
		}
		if _, err := r.ReadByte(); err != io.EOF {
			t.Fatal("bytes are left")
		}
	})
}

func TestReadFrameRefuses(t *testing.T) {
	t.Parallel()
	for in, want := range map[string]error{
		"":                                     io.EOF,
		"\x00":                                 io.ErrUnexpectedEOF,
		"\x00\x05abc":                          io.ErrUnexpectedEOF,
		"\x02\x00\x00":                         io.ErrUnexpectedEOF,
		"\x08\x00":                             errReserved,
		"\x80\x00":                             errReserved,
		"\x05\x00":                             errCommand,
		"\x02\x00\x00\x00\x00\x00\x00\x04\x01": nil, // 1025 bytes, checked below
	} {
		_, err := readFrame(bufio.NewReader(strings.NewReader(in)), 1024)
		if want != nil && !errors.Is(err, want) {
			t.Errorf("%q: %v, want %v", in, err, want)
		}
		if want == nil && (err == nil || !strings.Contains(err.Error(), "over the limit")) {
			t.Errorf("%q: %v, want one that names the limit", in, err)
		}
	}
}

// go-zeromq/zmq4 v0.17.0 makes a slice of the size that the header claims and
// dies. Here memory follows what has arrived.
func TestClaimedSizeCostsNothing(t *testing.T) {
	for _, size := range []string{"\x00\x00\x00\x00\x40\x00\x00\x00", "\x40\x00\x00\x00\x00\x00\x00\x00", "\xff\xff\xff\xff\xff\xff\xff\xff"} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := readFrame(bufio.NewReader(strings.NewReader("\x02"+size+strings.Repeat("x", 100))), 2<<30-1)
		runtime.ReadMemStats(&after)
		if err == nil {
			t.Errorf("size %x was read", size)
		}
		if took := after.TotalAlloc - before.TotalAlloc; took > 1<<20 {
			t.Errorf("size %x took %d bytes for 100 that came", size, took)
		}
	}
}
