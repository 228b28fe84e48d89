package jupyter

import (
	"fmt"
	"sync"
)

// complaints are what was said of messages that were not as they should be.
// Each is said once, and only so many: a stranger must not be able to fill a
// server's log.
type complaints struct {
	mu   sync.Mutex
	said map[string]bool
}

const (
	mostComplaints = 20
	longComplaint  = 400
)

// complain says on standard error what was wrong with a message.
func (s *session) complain(format string, args ...any) {
	text := fmt.Sprintf(format, args...)
	if len(text) > longComplaint {
		text = text[:longComplaint] + "…"
	}
	s.told.mu.Lock()
	defer s.told.mu.Unlock()
	if s.told.said[text] || len(s.told.said) >= mostComplaints {
		return
	}
	if s.told.said == nil {
		s.told.said = map[string]bool{}
	}
	s.told.said[text] = true
	if len(s.told.said) == mostComplaints {
		text += " (nothing more of this kind will be said)"
	}
	s.log("%s", text)
}
