package jupyter

// The requests that ask and change nothing.

func (s *session) kernelInfo(*request) (any, error) {
	links := s.info.HelpLinks
	if links == nil {
		links = []HelpLink{}
	}
	return map[string]any{
		"status":                 "ok",
		"protocol_version":       protocolVersion,
		"implementation":         s.info.Implementation,
		"implementation_version": s.info.Version,
		"language_info":          s.info.Language,
		"banner":                 s.info.Banner,
		"help_links":             links,
		"debugger":               false,
		"supported_features":     []string{},
	}, nil
}

func (s *session) complete(r *request) (any, error) {
	var c struct {
		Code string   `json:"code"`
		Pos  *float64 `json:"cursor_pos"`
	}
	if err := r.decode(&c); err != nil {
		return nil, err
	}
	found := s.core.Complete(c.Code, cursor(c.Code, c.Pos))
	return map[string]any{
		"status":       "ok",
		"matches":      lines(found.Matches),
		"cursor_start": codePoint(c.Code, found.Start),
		"cursor_end":   codePoint(c.Code, found.End),
		"metadata":     object(found.Metadata),
	}, nil
}

func (s *session) inspect(r *request) (any, error) {
	var c struct {
		Code   string   `json:"code"`
		Pos    *float64 `json:"cursor_pos"`
		Detail int      `json:"detail_level"`
	}
	if err := r.decode(&c); err != nil {
		return nil, err
	}
	data, found := s.core.Inspect(c.Code, cursor(c.Code, c.Pos), c.Detail)
	if !found {
		data = nil
	}
	return map[string]any{"status": "ok", "found": found, "data": data.content(), "metadata": map[string]any{}}, nil
}

// cursor is the byte offset of a cursor; without one, and behind the code's
// end by however much, it is that end. 1e30 is a number too.
func cursor(code string, pos *float64) int {
	if pos == nil || *pos >= float64(len(code)) {
		return len(code)
	}
	return byteOffset(code, int(max(0, *pos)))
}

func (s *session) isComplete(r *request) (any, error) {
	var c struct {
		Code string `json:"code"`
	}
	if err := r.decode(&c); err != nil {
		return nil, err
	}
	status, indent := s.core.IsComplete(c.Code)
	reply := map[string]any{"status": status}
	if status == "incomplete" {
		reply["indent"] = indent
	}
	return reply, nil
}

func (s *session) findHistory(r *request) (any, error) {
	var q historyRequest
	if err := r.decode(&q); err != nil {
		return nil, err
	}
	return map[string]any{"status": "ok", "history": s.history.find(q)}, nil
}

// commInfo: there are no comms.
func (s *session) commInfo(*request) (any, error) {
	return map[string]any{"status": "ok", "comms": map[string]any{}}, nil
}

// refuseComm closes a comm at once, which the standard asks for when the target
// is unknown; the front end would wait for its widget otherwise.
func (s *session) refuseComm(r *request) (any, error) {
	var c struct {
		ID string `json:"comm_id"`
	}
	if err := r.decode(&c); err != nil {
		return nil, err
	}
	return nil, s.publish("comm_close", r, map[string]any{"comm_id": c.ID, "data": map[string]any{}})
}
