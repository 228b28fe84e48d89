package protect

import (
	"reflect"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/lib/table"

	"pgregory.net/rapid"
)

// functions are all that take a struct of inputs.
var functions = []any{
	PulseIntegral, CapacitorPulse, Fuse, FusePulse, FuseClearing, FailedShort, Resettable, Tripped, Clamp, Surge, PulsePower, ClampHeat, Discharge,
	HotPlug, HotPlugDamping, Inrush, Thermistor, SlopeInrush, SafeArea, InductiveTurnOff, InductiveSnubber, ReverseDiode, ReverseSwitch, Disconnect, DisconnectDivider, Chain,
}

// fieldUnits are the units of the fields of inputs by what they are called;
// some mean another in one struct.
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
	"TrippedInputs.Load": "Ω", "PulsePowerInputs.Rated": "W", "SurgeInputs.Rated": "W", "ClampHeatInputs.Limit": "°C", "ReverseDiodeInputs.Rating": "V", "ReverseSwitchInputs.Rating": "V",
	"InductiveInputs.Rating": "V", "SnubberInputs.Rating": "V", "ChainStage.Rating": "V", "DisconnectInputs.Reference": "V", "DisconnectDividerInputs.Reference": "V",
}

// Whatever the arguments, no function panics, and a result without an error
// holds finite numbers only.
func TestNothingInfiniteLeaves(t *testing.T) {
	t.Parallel()
	tables := []table.Table{
		{}, hold(), area(), expect.Table("t [°C], share [%]\n-40, 110\n85, 80"), expect.Table("pulses [1] log, share [%]\n1, 60\n1000, 40"), expect.Table("multiple [1], time [s]\n0, 100\n100, 0"),
		expect.Table("current [A] log, time [s]\n1e-6, 100\n1e6, 1e-6"), expect.Table("t [°C], I [A]\n-200, -1\n1000, 1e20").Held(),
	}
	fits := map[string]table.Table{"Hold": tables[1], "Area": tables[2], "Derating": tables[3]}
	rapid.Check(t, func(t *rapid.T) {
		draw, mayWork := expect.Manner(t)
		filler := expect.Filler{Units: fieldUnits, Draw: draw, Others: []any{tables, []string{"", "UL 248", "IEC 60127", "triangle", "trapezoid", "exponential"}}}
		filler.Call(t, rapid.SampledFrom(functions).Draw(t, "function"), func(in reflect.Value) {
			for name, curve := range fits {
				if f := in.FieldByName(name); f.IsValid() && mayWork {
					f.Set(reflect.ValueOf(curve))
				}
			}
		})
	})
}
