package protect

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// ChainStage is one thing in the way from the supply to what is protected: a
// wire, a fuse, a diode, a switch, a clamp to ground behind any of them.
type ChainStage struct {
	Name                   string
	Resistance             units.Quantity // in series, Ω; left out: none
	Forward                units.Quantity // drop in series that does not depend on the current, V; left out: none
	Blocks                 bool           // lets no current back to a reversed supply
	Rating                 units.Quantity // reverse voltage that it blocks, V; where it Blocks
	Breakdown              units.Quantity // of a clamp to ground behind it, V; left out: no clamp
	ClampResistance        units.Quantity // of that clamp, Ω; left out: none
	ClampForward           units.Quantity // of that clamp with a reversed supply, V; left out: Breakdown, as of a bidirectional one
	ClampForwardResistance units.Quantity // of that clamp with a reversed supply, Ω; left out: ClampResistance
	Limit                  units.Quantity // highest voltage that what hangs behind it survives, V; left out: none is known
}

// ChainInputs are the arguments of Chain: one case of what the outside does.
type ChainInputs struct {
	Stages   []ChainStage   // from the supply on
	Supply   units.Quantity // its size, V
	Source   units.Quantity // resistance of the supply, or of a generator, Ω
	Load     units.Quantity // current taken at the end, A; left out: none
	Reversed bool           // plus and minus are exchanged
	Shorted  bool           // the end is shorted
}

// ChainStageResult is what Chain finds of a stage.
type ChainStageResult struct {
	Name         string
	Current      units.Quantity // through it, A
	Drop         units.Quantity // across it, V; where it blocks, the reverse voltage
	Voltage      units.Quantity // behind it, V; below zero with a reversed supply
	ClampCurrent units.Quantity // through the clamp behind it, A
	Loss         units.Quantity // in it, W
	ClampLoss    units.Quantity // in the clamp behind it, W
	Margin       units.Quantity // of Limit above Voltage, or of Rating above a blocked Drop, V; without either it is not there
}

// ChainResult is what Chain finds.
type ChainResult struct {
	Current   units.Quantity // from the supply, A
	Output    units.Quantity // voltage at the end, V
	Loss      units.Quantity // in all stages and clamps, W
	Delivered units.Quantity // power into the load, W
	Supplied  units.Quantity // power from the supply behind its own resistance, W: Loss and Delivered
	Stages    []ChainStageResult
}

// Chain computes the input of a board as a whole in one case: the voltage and
// the loss at each stage.
//
//	before stage = Voltage + Drop
//	Drop         = resistance · Current + forward
//	ClampCurrent = (Voltage − breakdown)/clamp resistance, not below 0
//	Current      = ClampCurrent + Current of the next stage
//	supply       = before the first stage + source · Current
//	Loss         = Drop · Current
//	ClampLoss    = Voltage · ClampCurrent
//
// all at once, solved for the voltage at the end, or for the current into a
// short circuit there. A reversed supply meets the first stage that blocks, and
// the clamps before it.
//
// Call it once for each case:
//
//	normal, low, high   the supply as it is, with what the load takes then
//	reversed            Reversed: true
//	surged              Supply: the generator's level, Source: its impedance
//	shorted             Shorted: true
//
// Arguments: see ChainInputs and ChainStage; at least one stage; Supply, V, and
// Source, Ω, above zero; the others not below. A clamp needs a
// ClampResistance of a microohm at least. It is an error outside of that,
// where the load asks for more than the chain carries, and where nothing blocks
// a reversed supply. Margins may be below zero.
//
//	surged, err := protect.Chain(protect.ChainInputs{
//		Stages: []protect.ChainStage{
//			{Name: "fuse", Resistance: 60mΩ, Breakdown: 38V, ClampResistance: 1.2Ω, ClampForward: 1V},
//			{Name: "diode", Forward: 0.5V, Blocks: true, Rating: 100V, Limit: 60V},
//		},
//		Supply: 1kV, Source: 42Ω, Load: 0.4A,
//	})
//
// Holds for settled voltages; what the capacitors take of a surge is left out,
// and so all voltages are upper bounds.
//
// Source: Kirchhoff's laws.
//
// Caution: a clamp before the stage that blocks conducts in a reversed supply
// until the fuse blows: hold Current against the fuse. A short circuit's
// current flows until the fuse has cleared it.
func Chain(in ChainInputs) (ChainResult, error) {
	const function = "protect.Chain"
	load := argument.Current.OrZero(in.Load)
	if len(in.Stages) == 0 {
		return ChainResult{}, fmt.Errorf("%s: Stages is empty: write at least one stage", function)
	}
	if err := argument.First(function,
		argument.Voltage.Positive("Supply", in.Supply),
		argument.Resistance.Positive("Source", in.Source),
		argument.Current.NotNegative("Load", load),
	); err != nil {
		return ChainResult{}, err
	}
	for i, s := range in.Stages {
		if err := argument.First(function, s.check(i)); err != nil {
			return ChainResult{}, err
		}
	}
	if in.Reversed {
		return in.reversed(function)
	}
	// Beyond what can be, so that no rounding leaves the solution outside.
	zero, most := argument.Voltage.OrZero(none), in.Supply.Mul(units.Number(2))
	if in.Shorted {
		if err := argument.First(function, in.startable(in.Stages)); err != nil {
			return ChainResult{}, err
		}
		into := units.Solve("the current into the short circuit", argument.Current.OrZero(none), most.Div(in.Source), func(current units.Quantity) units.Quantity {
			return in.walk(in.Stages, zero, current).needed.Sub(in.Supply)
		})
		return in.walk(in.Stages, zero, into).result(), nil
	}
	if err := argument.First(function,
		atMost("what Load drops in Source and Stages", in.walk(in.Stages, zero, load).needed, "Supply", in.Supply, "the chain cannot carry the load; lower Load or the resistances"),
	); err != nil {
		return ChainResult{}, err
	}
	output := units.Solve("the voltage at the end", zero, most, func(voltage units.Quantity) units.Quantity {
		return in.walk(in.Stages, voltage, load).needed.Sub(in.Supply)
	})
	return in.walk(in.Stages, output, load).result(), nil
}

// reversed computes the stages before the one that blocks with the supply's
// size, gives that one all that is left, and turns the signs.
func (in ChainInputs) reversed(function string) (ChainResult, error) {
	blocking := 0
	for blocking < len(in.Stages) && !in.Stages[blocking].Blocks {
		blocking++
	}
	if blocking == len(in.Stages) {
		return ChainResult{}, fmt.Errorf("%s: no stage Blocks, so a reversed supply of %v reaches the end: add a diode or a switch, and write Blocks: true", function, in.Supply)
	}
	zero := argument.Voltage.OrZero(none)
	still := argument.Current.OrZero(none)
	before := make([]ChainStage, blocking)
	for i, s := range in.Stages[:blocking] {
		if argument.Given(s.ClampForward) {
			s.Breakdown = s.ClampForward
		}
		if argument.Given(s.ClampForwardResistance) {
			s.ClampResistance = s.ClampForwardResistance
		}
		s.Limit = none
		before[i] = s
	}
	if err := argument.First(function, in.startable(before)); err != nil {
		return ChainResult{}, err
	}
	at := units.Solve("the reversed voltage", zero, in.Supply.Mul(units.Number(2)), func(voltage units.Quantity) units.Quantity {
		return in.walk(before, voltage, still).needed.Sub(in.Supply)
	})
	w := in.walk(before, at, still)
	for i := range w.stages {
		s := &w.stages[i]
		s.Voltage, s.Drop, s.Current, s.ClampCurrent = s.Voltage.Neg(), s.Drop.Neg(), s.Current.Neg(), s.ClampCurrent.Neg()
	}
	for i, s := range in.Stages[blocking:] {
		r := ChainStageResult{Name: s.Name, Current: still, Drop: zero, Voltage: zero, ClampCurrent: still, Loss: zero.Mul(still), ClampLoss: zero.Mul(still)}
		if i == 0 {
			r.Drop = at.Neg()
			r.Margin = s.Rating.Sub(at)
		}
		w.stages = append(w.stages, r)
	}
	r := w.result()
	r.Current, r.Output, r.Delivered = r.Current.Neg(), zero, zero.Mul(still)
	r.Supplied = r.Loss
	return r, nil
}

// startable checks that a current can begin to flow.
func (in ChainInputs) startable(stages []ChainStage) error {
	needed := in.walk(stages, argument.Voltage.OrZero(none), argument.Current.OrZero(none)).needed
	return atMost("what the stages drop without current", needed, "Supply", in.Supply, "nothing flows at all; lower their Forward")
}

// walked is a chain seen from its end.
type walked struct {
	stages       []ChainStageResult
	needed       units.Quantity // voltage of the supply that makes it so
	current      units.Quantity // from the supply
	output, load units.Quantity
}

// walk goes through the stages from the end, at which there are the voltage
// and the current that are given, to the supply.
func (in ChainInputs) walk(stages []ChainStage, voltage, current units.Quantity) walked {
	w := walked{stages: make([]ChainStageResult, len(stages)), output: voltage, load: current}
	for i := len(stages) - 1; i >= 0; i-- {
		s := stages[i]
		r := ChainStageResult{Name: s.Name, Voltage: voltage, Drop: argument.Voltage.OrZero(s.Forward), ClampCurrent: argument.Current.OrZero(none), ClampLoss: argument.Power.OrZero(none)}
		if argument.Given(s.Breakdown) {
			excess := units.Max(voltage.Sub(s.Breakdown), argument.Voltage.OrZero(none))
			r.ClampCurrent = excess.Div(s.ClampResistance)
			r.ClampLoss = voltage.Mul(r.ClampCurrent)
			current = current.Add(r.ClampCurrent)
		}
		if argument.Given(s.Resistance) {
			r.Drop = r.Drop.Add(s.Resistance.Mul(current))
		}
		r.Current = current
		r.Loss = r.Drop.Mul(current)
		if argument.Given(s.Limit) {
			r.Margin = s.Limit.Sub(voltage)
		}
		voltage = voltage.Add(r.Drop)
		w.stages[i] = r
	}
	w.current, w.needed = current, voltage.Add(in.Source.Mul(current))
	return w
}

func (w walked) result() ChainResult {
	delivered := w.output.Mul(w.load)
	loss := argument.Power.OrZero(none)
	for _, s := range w.stages {
		loss = loss.Add(s.Loss).Add(s.ClampLoss)
	}
	return ChainResult{Current: w.current, Output: w.output, Loss: loss, Delivered: delivered, Supplied: loss.Add(delivered), Stages: w.stages}
}

// check is for stage i of a chain.
func (s ChainStage) check(i int) error {
	name := fmt.Sprintf("stage %d", i+1)
	if s.Name != "" {
		name += ", " + s.Name
	}
	if err := argument.First(name,
		argument.Resistance.NotNegative("Resistance", argument.Resistance.OrZero(s.Resistance)),
		argument.Voltage.NotNegative("Forward", argument.Voltage.OrZero(s.Forward)),
		argument.Voltage.Optional("Breakdown", s.Breakdown),
		argument.Voltage.Optional("ClampForward", s.ClampForward),
		argument.Voltage.Optional("Limit", s.Limit),
	); err != nil {
		return err
	}
	if s.Blocks {
		if err := argument.First(name, argument.Voltage.Positive("Rating", s.Rating)); err != nil {
			return err
		}
	} else if err := argument.First(name, unused("Rating", s.Rating, "only a stage that blocks a reversed supply has one: write Blocks: true, or leave it out")); err != nil {
		return err
	}
	if !argument.Given(s.Breakdown) {
		return argument.First(name,
			unused("ClampForward", s.ClampForward, "there is no clamp: give its Breakdown, or leave it out"),
			unused("ClampResistance", s.ClampResistance, "there is no clamp: give its Breakdown, or leave it out"),
			unused("ClampForwardResistance", s.ClampForwardResistance, "there is no clamp: give its Breakdown, or leave it out"),
		)
	}
	forward := s.ClampResistance
	if argument.Given(s.ClampForwardResistance) {
		forward = s.ClampForwardResistance
	}
	if err := argument.First(name,
		argument.Resistance.Positive("ClampResistance", s.ClampResistance),
		argument.Resistance.Positive("ClampForwardResistance", forward),
	); err != nil {
		return err
	}
	const mend = "take it from the line between breakdown and clamping voltage, as Clamp does"
	return argument.First(name,
		argument.AtLeast("ClampResistance", s.ClampResistance, "a microohm", units.MustParse("1 µΩ"), mend),
		argument.AtLeast("ClampForwardResistance", forward, "a microohm", units.MustParse("1 µΩ"), mend),
	)
}
