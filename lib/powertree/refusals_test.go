package powertree

import "testing"

// What a single stage refuses, and what just goes.
func TestStageRefusals(t *testing.T) {
	t.Parallel()
	stage := func(change func(in *StageInputs)) StageInputs {
		in := StageInputs{Input: q("5 V"), Output: q("3.3 V"), Load: q("150 mA")}
		change(&in)
		return in
	}
	type made = func(StageInputs) (StageResult, error)
	for _, c := range []struct {
		why  string
		f    made
		in   StageInputs
		want string
	}{
		{"no input", Linear, stage(func(in *StageInputs) { in.Input = none }), "powertree.Linear: Input is not given, or is the bare number 0: write its voltage, such as 3.3 V"},
		{"a current for a voltage", Linear, stage(func(in *StageInputs) { in.Output = q("3 A") }), "powertree.Linear: Output is 3 A; it must be a voltage: write it in V, such as 3.3 V"},
		{"a load that comes back", Linear, stage(func(in *StageInputs) { in.Load = q("-1 mA") }), "powertree.Linear: Load is −1 mA; it must not be below 0 A: check its sign and the formula it comes from"},
		{"a linear regulator that steps up", Linear, stage(func(in *StageInputs) { in.Output = q("5.001 V") }), "powertree.Linear: Output is 5.001 V; it must not be above Input, 5 V: a linear regulator cannot step up"},
		{"an output at its input", Linear, stage(func(in *StageInputs) { in.Output = q("5 V") }), ""},
		{"a switching stage without efficiency", Switching, stage(func(in *StageInputs) {}), "powertree.Switching: Efficiency is not given, or is the bare number 0: write its share, such as 60 %"},
		{"more out than in", Switching, stage(func(in *StageInputs) { in.Efficiency = q("100.1 %") }), "powertree.Switching: Efficiency is 100.1 %; it must not be above that without loss, 100 %: no converter gives more than it takes"},
		{"all out that goes in", Switching, stage(func(in *StageInputs) { in.Efficiency = q("100 %") }), ""},
		{"nothing out", Switching, stage(func(in *StageInputs) { in.Efficiency = q("0 %") }), "powertree.Switching: Efficiency is 0 %; it must be above 0 %: write its share, such as 60 %"},
	} {
		_, err := c.f(c.in)
		got := ""
		if err != nil {
			got = err.Error()
		}
		if got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.why, got, c.want)
		}
	}
}
