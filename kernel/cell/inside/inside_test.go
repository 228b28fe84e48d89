package inside_test

import (
	"context"
	"go/types"
	"math"
	"reflect"
	"strings"
	"testing"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/cell/host/allow"
	"ohmwright/kernel/cell/inside"
	"ohmwright/lib/divider"
	"ohmwright/units"
)

func world(t *testing.T) *host.World {
	t.Helper()
	w, err := host.Load()
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// called makes a call of divider.Plain and what it gave.
func called(w *host.World, gave divider.PlainResult, args ...string) (exec.Call, []exec.Value) {
	f := w.Package("divider").Scope().Lookup("Plain").(*types.Func)
	call := exec.Call{Func: f}
	for i, a := range args {
		call.Args = append(call.Args, exec.Value{Type: f.Signature().Params().At(i).Type(), V: units.MustParse(a)})
	}
	results := f.Signature().Results()
	return call, []exec.Value{exec.FromGo(results.At(0).Type(), reflect.ValueOf(gave)), {Type: results.At(1).Type()}}
}

// A divider of 12 V, 10 kΩ and 3.3 kΩ by hand: 12 V · 3.3/13.3 = 2.977 V,
// 12 V/13.3 kΩ = 902.3 µA.
func TestStepsByHand(t *testing.T) {
	t.Parallel()
	w := world(t)
	gave, err := divider.Plain(units.MustParse("12V"), units.MustParse("10kΩ"), units.MustParse("3.3kΩ"))
	if err != nil {
		t.Fatal(err)
	}
	call, results := called(w, gave, "12V", "10kΩ", "3.3kΩ")
	steps, err := inside.New(w).Steps(context.Background(), call, results)
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]float64{"Output": 12 * 3.3 / 13.3, "Current": 12 / 13.3e3, "Ratio": 3.3 / 13.3, "UpperPower": 144 * 10e3 / (13.3e3 * 13.3e3)}
	for _, s := range steps {
		x, ok := want[s.Name]
		if !ok {
			continue
		}
		delete(want, s.Name)
		if got := s.Value.Quantity.(units.Quantity).SI(); math.Abs(got-x) > 1e-12*x {
			t.Errorf("%s is %v, by hand %v", s.Name, got, x)
		}
		if s.Formula == nil || s.Formula.Kind == cell.ExprCode {
			t.Errorf("%s has no formula", s.Name)
		}
	}
	for name := range want {
		t.Errorf("no step gives %s", name)
	}
}

// What the source does not give is told to nobody as if it were its result.
func TestAnotherResult(t *testing.T) {
	t.Parallel()
	w := world(t)
	gave, err := divider.Plain(units.MustParse("12V"), units.MustParse("10kΩ"), units.MustParse("3.3kΩ"))
	if err != nil {
		t.Fatal(err)
	}
	gave.Power = gave.Power.Mul(units.Number(1 + 1e-9))
	call, results := called(w, gave, "12V", "10kΩ", "3.3kΩ")
	steps, err := inside.New(w).Steps(context.Background(), call, results)
	if err == nil || !strings.Contains(err.Error(), "divider.Plain gave another result than its source does") || steps != nil {
		t.Errorf("a result that differs in the ninth digit: %v, %d steps", err, len(steps))
	}
	call, results = called(w, divider.PlainResult{}, "12V", "0Ω", "3.3kΩ")
	if _, err := inside.New(w).Steps(context.Background(), call, results); err == nil {
		t.Error("an error of the source, and none of the function, went through")
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := inside.New(w).Steps(ctx, call, results); err == nil {
		t.Error("a run that was cancelled went through")
	}
}

// Every package of lib can be built from its source, but for those whose
// values hide what is in them.
func TestEveryPackageBuilds(t *testing.T) {
	t.Parallel()
	w := world(t)
	l := inside.New(w)
	hidden := map[string]bool{"argument": true, "preferred": true, "table": true}
	for _, path := range w.Paths() {
		name, ok := strings.CutPrefix(path, allow.Lib)
		if !ok {
			continue
		}
		if err := l.Build(path); (err != nil) != hidden[name] {
			t.Errorf("%s: %v", path, err)
		}
	}
}
