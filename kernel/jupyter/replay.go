package jupyter

import (
	"crypto/sha256"
	"sync"
)

// remembered is how many signatures are kept at least, the number that the
// reference client keeps.
const remembered = 1 << 16

// A replayGuard knows the latest signatures. It keeps two generations, so that
// forgetting costs nothing; memory is bounded at about 10 MB.
type replayGuard struct {
	mu       sync.Mutex
	now, old map[[sha256.Size]byte]struct{}
	size     int // of a generation; 0 means remembered
}

// first reports whether the signature was not seen before, and remembers it.
func (g *replayGuard) first(s [sha256.Size]byte) bool {
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
		g.now, g.old = map[[sha256.Size]byte]struct{}{}, g.now
	}
	g.now[s] = struct{}{}
	return true
}
