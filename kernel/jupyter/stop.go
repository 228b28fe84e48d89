package jupyter

import "time"

// patience is how long a cell that was told to stop may take before the kernel
// shuts down without it.
const patience = time.Second

// interrupt stops the cell that runs; its reply is an error, so what is queued
// behind it is aborted.
func (s *session) interrupt(*request) (any, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.cancel != nil {
		s.cancel(ErrInterrupted)
	}
	return map[string]any{"status": "ok"}, nil
}

// stop ends the running cell and lets no other begin.
func (s *session) stop() (shellIdle chan struct{}) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.stopped = true
	if s.cancel != nil {
		s.cancel(ErrInterrupted)
	}
	return s.idle
}

// shutdown is answered after everything has ended: clients take the reply for
// the end. The running cell's own reply and idle leave first.
func (s *session) shutdown(r *request) (any, error) {
	reply, err := shutdownReply(r)
	if err != nil {
		return nil, err
	}
	idle := s.stop()
	select {
	case <-idle:
	case <-time.After(patience):
	}
	s.shutdownCore()
	return reply, nil
}

// shutdownOnShell is the same on shell, where clients before 5.4 send it:
// nothing else runs there.
func (s *session) shutdownOnShell(r *request) (any, error) {
	reply, err := shutdownReply(r)
	if err != nil {
		return nil, err
	}
	s.stop()
	s.shutdownCore()
	return reply, nil
}

func shutdownReply(r *request) (any, error) {
	var c struct {
		Restart bool `json:"restart"`
	}
	err := r.decode(&c)
	return map[string]any{"status": "ok", "restart": c.Restart}, err
}

func (s *session) shutdownCore() {
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		defer func() {
			if p := recover(); p != nil {
				s.log("panic in shutdown: %v", p)
			}
		}()
		s.core.Shutdown()
	}()
	select {
	case <-ended:
	case <-time.After(patience):
		s.log("shutdown did not end in %v", patience)
	}
}
