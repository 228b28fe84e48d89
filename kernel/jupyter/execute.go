package jupyter

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"runtime/debug"
	"time"
)

// settle is how long a failed cell waits before it decides which requests were
// sent without knowing of the failure. Without it, "run all" would go on behind
// the error whenever this kernel is faster than the server that relays the
// cells one after another.
const settle = 10 * time.Millisecond

type executeContent struct {
	Code            *string           `json:"code"`
	Silent          bool              `json:"silent"`
	StoreHistory    *bool             `json:"store_history"`
	UserExpressions map[string]string `json:"user_expressions"` // null for none
	AllowStdin      *bool             `json:"allow_stdin"`
	StopOnError     *bool             `json:"stop_on_error"`
}

func orTrue(b *bool) bool { return b == nil || *b }

func (s *session) execute(r *request) (any, error) {
	var c executeContent
	if err := r.decode(&c); err != nil {
		return nil, err
	}
	if c.Code == nil {
		return nil, errors.New("execute_request: code is missing")
	}
	code := *c.Code
	if !c.Silent && r.at.Before(s.abortBefore) {
		return map[string]any{"status": "aborted", "execution_count": s.count}, nil
	}
	store := orTrue(c.StoreHistory) && !c.Silent
	if store {
		s.count++
		s.history.add(s.count, code)
	}
	ctx, ended := s.begin()
	defer ended()
	if !c.Silent {
		s.publish("execute_input", r, map[string]any{"code": code, "execution_count": s.count})
	}
	req := ExecuteRequest{
		Code: code, Session: r.session, Count: s.count, Silent: c.Silent, StoreHistory: store,
		UserExpressions: c.UserExpressions, AllowStdin: orTrue(c.AllowStdin), StopOnError: orTrue(c.StopOnError),
	}
	req.CellID, req.DeletedCells = cellIDs(r.metadata)

	out := &output{session: s, parent: r, count: s.count, closed: c.Silent}
	reply := s.run(ctx, req, out)
	if store {
		s.history.result(s.count, out.result)
	}
	if reply.Err != nil && req.StopOnError && !c.Silent {
		time.Sleep(settle)
		s.abortBefore = time.Now()
	}
	return executeReply(s.count, req, reply), nil
}

// begin makes the context of a cell. It comes before execute_input is sent: who
// has seen that may interrupt.
func (s *session) begin() (ctx context.Context, ended func()) {
	ctx, cancel := context.WithCancelCause(s.ctx)
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.stopped {
		cancel(ErrInterrupted)
	}
	s.cancel = cancel
	return ctx, func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		s.cancel = nil
		cancel(nil)
	}
}

// run calls the Core so that a panic stays in it, and an error is shown once
// and stands in the reply, whichever way it came.
func (s *session) run(ctx context.Context, req ExecuteRequest, out *output) (reply ExecuteReply) {
	defer func() { reply.Err = out.finish(reply.Err) }()
	defer func() {
		if p := recover(); p != nil {
			s.log("panic in a cell: %v\n%s", p, debug.Stack())
			value := fmt.Sprintf("the kernel failed while it ran this cell: %v", p)
			reply = ExecuteReply{Err: &Error{Name: "InternalError", Value: value, Traceback: []string{value}}}
		}
	}()
	return s.core.Execute(ctx, req, out)
}

func executeReply(count int, req ExecuteRequest, reply ExecuteReply) map[string]any {
	content := map[string]any{"status": "ok", "execution_count": count, "payload": []any{}}
	values := map[string]any{}
	if e := reply.Err; e != nil {
		content["status"] = "error"
		content["ename"], content["evalue"], content["traceback"] = e.Name, e.Value, lines(e.Traceback)
	} else {
		for name := range req.UserExpressions {
			x, ok := reply.UserExpressions[name]
			if !ok {
				x.Err = &Error{Name: "NotEvaluated", Value: "the kernel did not evaluate " + name}
			}
			values[name] = x.content()
		}
	}
	content["user_expressions"] = values
	return content
}

func (x Expression) content() map[string]any {
	if e := x.Err; e != nil {
		return map[string]any{"status": "error", "ename": e.Name, "evalue": e.Value, "traceback": lines(e.Traceback)}
	}
	return map[string]any{"status": "ok", "data": x.Data.content(), "metadata": object(x.Metadata)}
}

// cellIDs reads what a front end says about cells. The metadata is the
// person's own (it holds the cell's), so what is of another type is passed over.
func cellIDs(metadata json.RawMessage) (id string, deleted []string) {
	var m struct {
		ID      json.RawMessage `json:"cellId"`
		Deleted json.RawMessage `json:"deletedCells"`
	}
	json.Unmarshal(metadata, &m)
	if json.Unmarshal(m.ID, &id) != nil {
		id = ""
	}
	if json.Unmarshal(m.Deleted, &deleted) != nil {
		deleted = nil
	}
	return id, deleted
}

// lines, object and content keep null out of messages: schemas ask for arrays
// and objects.
func lines(s []string) []string {
	if s == nil {
		return []string{}
	}
	return s
}

func object(m map[string]any) map[string]any {
	if m == nil {
		return map[string]any{}
	}
	return m
}

func (b Bundle) content() Bundle {
	if b == nil {
		return Bundle{}
	}
	return b
}
