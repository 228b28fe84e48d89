package jupyter

import (
	"crypto/sha256"
	"encoding/binary"
	"sync"
)

// remembered is how many signatures are kept at least, the number that the
// reference client keeps.
const remembered = 1 << 16

// A replayGuard knows the latest signatures. It keeps two generations, so that
// forgetting costs nothing. Of each it keeps eight bytes: who could make another
// signature with the same ones could make any, and that two honest messages
// share them does not happen. So memory stays below 5 MB.
type replayGuard struct {
	mu       sync.Mutex
	now, old map[uint64]struct{}
	size     int // of a generation; 0 means remembered
}

// first reports whether the signature was not seen before, and remembers it.
func (g *replayGuard) first(signature [sha256.Size]byte) bool {
	s := binary.LittleEndian.Uint64(signature[:])
	g.mu.Lock()
	defer g.mu.Unlock()
	if _, ok := g.now[s]; ok {
		return false
	}
	if _, ok := g.old[s]; ok {
		return false
	}
	size := g.size
	if size == 0 {
		size = remembered
	}
	if g.now == nil || len(g.now) >= size {
		g.now, g.old = map[uint64]struct{}{}, g.now
	}
	g.now[s] = struct{}{}
	return true
}
