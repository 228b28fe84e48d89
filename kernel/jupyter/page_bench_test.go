package jupyter

import (
	"context"
	"fmt"
	"testing"
)

// blind is an Output that looks at nothing.
type blind struct{ n int }

func (b *blind) DisplayData(Bundle, map[string]any, string)       {}
func (b *blind) UpdateDisplayData(Bundle, map[string]any, string) {}
func (b *blind) ExecuteResult(Bundle, map[string]any)             {}
func (b *blind) Stream(string, string)                            {}
func (b *blind) Error(string, string, []string)                   {}
func (b *blind) ClearOutput(bool)                                 {}
func (b *blind) NewDisplayID() string                             { b.n++; return fmt.Sprint(b.n) }

// session300 is a session of 300 cells, each of which uses the one before.
func session300(b *testing.B, ids bool) *Engine {
	e, err := NewEngine(nil, nil)
	if err != nil {
		b.Fatal(err)
	}
	for i := range 300 {
		code := "x0 := 1V // supply [system spec]"
		if i > 0 {
			code = fmt.Sprintf("x%d := x%d + 1mV\nr%d := 10kΩ ± 1%%\ni%d := x%d/r%d", i, i-1, i, i, i, i)
		}
		req := ExecuteRequest{Code: code, Session: "one", Count: i + 1}
		if ids {
			req.CellID = fmt.Sprint("cell ", i)
		}
		if r := e.Execute(context.Background(), req, &blind{}); r.Err != nil {
			b.Fatal(r.Err)
		}
	}
	return e
}

// A trivial execution in a long session, with and without cell ids.
func BenchmarkTrivialExecution(b *testing.B) {
	for _, ids := range []bool{true, false} {
		b.Run(fmt.Sprintf("ids=%v", ids), func(b *testing.B) {
			e := session300(b, ids)
			for i := 0; b.Loop(); i++ {
				req := ExecuteRequest{Code: fmt.Sprintf("y := %d", i), Session: "one", Count: i}
				if ids {
					req.CellID = "more"
				}
				e.Execute(context.Background(), req, &blind{})
			}
		})
	}
}

// A change that every cell of a long session depends on.
func BenchmarkChangeOfAll(b *testing.B) {
	e := session300(b, true)
	for i := 0; b.Loop(); i++ {
		e.Execute(context.Background(), ExecuteRequest{Code: fmt.Sprintf("x0 := %dV", i), CellID: "cell 0", Session: "one", Count: i}, &blind{})
	}
}
