package protect

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"ohmwright/lib/table"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// functions are all that take a struct of inputs.
var functions = []any{
	PulseIntegral, CapacitorPulse, Fuse, FusePulse, FuseClearing, FailedShort, Resettable, Tripped, Clamp, Surge, PulsePower, ClampHeat, Discharge,
	HotPlug, HotPlugDamping, Inrush, Thermistor, SlopeInrush, SafeArea, InductiveTurnOff, InductiveSnubber, ReverseDiode, ReverseSwitch, Disconnect, DisconnectDivider, Chain,
}

// fieldUnits are the units of the fields of inputs by what they are called.
var fieldUnits = map[string]string{
	"Peak": "A", "Base": "A", "Time": "s", "Voltage": "V", "Capacitance": "F", "Resistance": "Ω", "Rated": "A", "Share": "", "Ambient": "°C", "Load": "A", "Supply": "V",
	"Fault": "A", "Breaking": "A", "Integral": "A²·s", "Melting": "A²·s", "Pulses": "", "Clearing": "A²·s", "Withstand": "A²·s", "Source": "Ω", "Fuse": "Ω", "Shorted": "Ω",
	"Surge": "A²·s", "SurgeShare": "", "LargestFault": "A", "LeastFault": "A", "AfterTrip": "Ω", "TripIntegral": "A²·s", "Reference": "°C", "LongestTripped": "s", "Power": "W",
	"Temperature": "°C", "StandOff": "V", "Breakdown": "V", "Clamping": "V", "PeakCurrent": "A", "Tempco": "1/K", "Working": "V", "Current": "A", "Limit": "V", "Level": "V",
	"Generator": "Ω", "Coupling": "Ω", "Series": "Ω", "Duration": "s", "RatedTime": "s", "Full": "°C", "Zero": "°C", "Energy": "J", "Interval": "s", "ThermalResistance": "K/W",
	"DynamicResistance": "Ω", "Inductance": "H", "Damping": "F", "DampingResistance": "Ω", "Resistor": "Ω", "Rating": "J", "Constant": "K", "Dissipation": "W/K", "Hottest": "°C",
	"Slope": "V/s", "Case": "°C", "Clamp": "V", "Frequency": "Hz", "Winding": "Ω", "Forward": "V", "Leakage": "A", "Reversed": "V", "Held": "V", "Drive": "V", "Needed": "V",
	"GateRating": "V", "GateClamp": "V", "GateResistor": "Ω", "BodyDiode": "V", "Upper": "Ω", "Lower": "Ω", "Feedback": "Ω", "High": "V", "Low": "V", "Offset": "V",
	"Disconnect": "V", "Reconnect": "V", "ClampResistance": "Ω", "ClampForward": "V", "ClampForwardResistance": "Ω",
}

// otherUnits are those that a function takes under the same name.
var otherUnits = map[string]string{
	"TrippedInputs.Load": "Ω", "PulsePowerInputs.Rated": "W", "SurgeInputs.Rated": "W", "ClampHeatInputs.Limit": "°C", "ReverseDiodeInputs.Rating": "V", "ReverseSwitchInputs.Rating": "V",
	"InductiveInputs.Rating": "V", "SnubberInputs.Rating": "V", "ChainStage.Rating": "V", "DisconnectInputs.Reference": "V", "DisconnectDividerInputs.Reference": "V",
}

// Whatever the arguments, no function panics, and a result without an error
// holds finite numbers only.
func TestNothingInfiniteLeaves(t *testing.T) {
	t.Parallel()
	sizes := []float64{1, 1, 10, 3.3, 1e-3, 1e-3, 1e3, 1e-6, 1e6, 0, -1, 1e-12, 1e-29, -1e-29, 1e29, 1e300, 5e-324, math.Inf(1), math.NaN()}
	tables := []table.Table{
		{}, hold(), area(), read("t [°C], share [%]\n-40, 110\n85, 80"), read("pulses [1] log, share [%]\n1, 60\n1000, 40"), read("multiple [1], time [s]\n0, 100\n100, 0"),
		read("current [A] log, time [s]\n1e-6, 100\n1e6, 1e-6"), read("t [°C], I [A]\n-200, -1\n1000, 1e20").Held(),
	}
	rapid.Check(t, func(t *rapid.T) {
		mode := rapid.IntRange(0, 2).Draw(t, "mode") // tame, broad, wild
		quantity := func(name, unit string) units.Quantity {
			if unit == "°C" && mode < 2 {
				return units.MustParse(fmt.Sprint(rapid.IntRange(-50, 200).Draw(t, name), " °C"))
			}
			switch mode {
			case 0:
				return of(math.Pow(10, rapid.Float64Range(-2, 2).Draw(t, name)), unit)
			case 1:
				return of(math.Pow(10, rapid.Float64Range(-28, 28).Draw(t, name)), unit)
			}
			switch rapid.IntRange(0, 25).Draw(t, name) {
			case 0:
				return units.Quantity{}
			case 1:
				return q("25 °C")
			case 2:
				return q("3 V")
			}
			if unit == "°C" {
				unit = "K"
			}
			return of(rapid.SampledFrom(sizes).Draw(t, name+" size"), unit)
		}
		var fill func(v reflect.Value)
		fill = func(v reflect.Value) {
			for i := range v.NumField() {
				name, f := v.Type().Field(i).Name, v.Field(i)
				switch {
				case f.Type() == reflect.TypeFor[units.Quantity]():
					u, ok := fieldUnits[name]
					if other, has := otherUnits[v.Type().Name()+"."+name]; has {
						u, ok = other, true
					}
					if !ok {
						t.Fatalf("the field %s is new: say its unit here", name)
					}
					if x := quantity(name, u); rapid.IntRange(0, 20).Draw(t, name+" given") > 0 {
						f.Set(reflect.ValueOf(x))
					}
				case f.Type() == reflect.TypeFor[table.Table]():
					curve := rapid.SampledFrom(tables).Draw(t, name)
					if fits, ok := map[string]table.Table{"Hold": tables[1], "Area": tables[2], "Derating": tables[3]}[name]; ok && mode == 0 {
						curve = fits
					}
					f.Set(reflect.ValueOf(curve))
				case f.Kind() == reflect.Bool:
					f.SetBool(rapid.Bool().Draw(t, name))
				case f.Kind() == reflect.String:
					f.SetString(rapid.SampledFrom([]string{"", "UL 248", "IEC 60127", "triangle", "trapezoid", "exponential"}).Draw(t, name))
				case f.Kind() == reflect.Struct:
					fill(f)
				case f.Kind() == reflect.Slice:
					n := rapid.IntRange(0, 3).Draw(t, name)
					f.Set(reflect.MakeSlice(f.Type(), n, n))
					for k := range n {
						fill(f.Index(k))
					}
				}
			}
		}
		f := rapid.SampledFrom(functions).Draw(t, "function")
		call := reflect.ValueOf(f)
		in := reflect.New(call.Type().In(0)).Elem()
		fill(in)
		out := call.Call([]reflect.Value{in})
		if !out[1].IsNil() {
			return
		}
		for name, x := range quantities(out[0].Interface()) {
			if math.IsNaN(x.SI()) || math.IsInf(x.SI(), 0) {
				t.Fatalf("%v of %+v: %s is %v", call.Type(), in.Interface(), name, x.SI())
			}
		}
	})
}
