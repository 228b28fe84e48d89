package lib_test

import (
	"ohmwright/lib/table"
	"ohmwright/lib/thermal"
	"ohmwright/units"
)

// thermalCalls are those of the functions of thermal beyond single paths.
var thermalCalls = []call{
	{"thermal.JunctionFromMeasured", thermal.JunctionFromMeasured, list(thermal.MeasuredInputs{Power: q("0.51 W"), Psi: thermal.Psi{JunctionToTop: q("6.1 K/W"), JunctionToBoard: q("40 K/W")}, Top: q("95 °C"), Board: q("80 °C")})},
	{"thermal.JunctionFromMeasured", thermal.JunctionFromMeasured, list(thermal.MeasuredInputs{Power: q("0.51 W"), Psi: thermal.Psi{JunctionToTop: q("6.1 K/W")}, Top: q("95 °C")})},
	{"thermal.TopAndBoard", thermal.TopAndBoard, list(thermal.TopAndBoardInputs{Ambient: q("50 °C"), Power: q("1 W"), JunctionToCase: q("25 K/W"), CaseToAir: q("175 K/W"), JunctionToBoard: q("10 K/W"), BoardToAir: q("30 K/W"), Others: q("0.5 W")})},
	{"thermal.Network", thermal.Network, list(thermal.NetworkInputs{
		Paths: []thermal.Segment{{From: "junction", To: "case", Resistance: q("2 K/W")}, {From: "case", To: "air", Resistance: q("13 K/W")}, {From: "junction", To: "board", Resistance: q("8 K/W")}, {From: "board", To: "outside", Resistance: q("30 K/W")}},
		Heats: []thermal.Heat{{At: "junction", Power: q("3 W")}},
		Held:  []thermal.Held{{Name: "air", Temperature: q("50 °C")}, {Name: "outside", Temperature: q("30 °C")}}})},
	{"thermal.Coupled", thermal.Coupled, list(thermal.CoupledInputs{Ambient: q("50 °C"), Sources: []thermal.CoupledSource{{Name: "regulator", Power: q("0.6 W"), Heats: []units.Quantity{q("42 K/W"), q("11 K/W")}}, {Name: "driver", Power: q("0.9 W"), Heats: []units.Quantity{q("11 K/W"), q("38 K/W")}}}})},
	{"thermal.Impedance", thermal.Impedance, list(foster, q("5 ms"))},
	{"thermal.Pulse", thermal.Pulse, list(thermal.PulseInputs{Network: foster, Reference: q("50 °C"), Power: q("20 W"), Duration: q("5 ms"), After: q("3 ms")})},
	{"thermal.Pulses", thermal.Pulses, list(thermal.PulsesInputs{Network: foster, Reference: q("50 °C"), Pulses: []thermal.TimedPulse{{Start: q("1 ms"), Duration: q("5 ms"), Power: q("20 W")}, {Start: q("4 ms"), Duration: q("20 ms"), Power: q("2 W")}}, Times: []units.Quantity{q("9 ms")}})},
	{"thermal.PulseTrain", thermal.PulseTrain, list(thermal.PulseTrainInputs{Network: foster, Reference: q("50 °C"), Power: q("20 W"), Duration: q("5 ms"), Period: q("50 ms"), Base: q("1 W")})},
	{"thermal.LargestPulse", thermal.LargestPulse, list(thermal.LargestPulseInputs{Network: foster, Reference: q("50 °C"), Limit: q("150 °C"), Duration: q("5 ms"), Period: q("50 ms"), Base: q("1 W")})},
	{"thermal.LargestPulse", thermal.LargestPulse, list(thermal.LargestPulseInputs{Network: foster, Reference: q("50 °C"), Limit: q("150 °C"), Duration: q("5 ms")})},
	{"thermal.CurvePulse", thermal.CurvePulse, list(thermal.CurvePulseInputs{Curve: curve("time [s] log, impedance [K/W] log\n1e-5, 0.02\n1e-3, 0.2\n1e-2, 0.6\n0.1, 1.2\n1, 1.6"), Steady: q("1.6 K/W"), Reference: q("50 °C"), Limit: q("150 °C"), Power: q("20 W"), Duration: q("5 ms"), Period: q("50 ms")})},
	{"thermal.CurvePulse", thermal.CurvePulse, list(thermal.CurvePulseInputs{Curve: curve("time [s] log, impedance [K/W] log\n1e-5, 0.02\n1e-3, 0.2\n1e-2, 0.6"), Reference: q("50 °C"), Limit: q("150 °C"), Power: q("20 W"), Duration: q("5 ms")})},
	{"thermal.SettledCurve", thermal.SettledCurve, list(thermal.SettledCurveInputs{Ambient: q("60 °C"), Resistance: q("50 K/W"), Loss: q("0.5 W"), Factor: curve("junction [°C], factor [1]\n-100, 0.6\n25, 1\n75, 1.28\n125, 1.62\n250, 2.8"), Fixed: q("0.1 W"), Limit: q("150 °C")})},
	{"thermal.Settled", thermal.Settled, list(thermal.SettledInputs{Ambient: q("60 °C"), Resistance: q("50 K/W"), Loss: q("0.5 W"), At: q("25 °C"), Tempco: q("0.5 %/K"), Fixed: q("0.1 W"), Limit: q("125 °C")})},
	// The limit above the point of runaway, and below it.
	{"thermal.Leakage", thermal.Leakage, list(thermal.LeakageInputs{Ambient: q("60 °C"), Resistance: q("60 K/W"), Fixed: q("0.4 W"), Leakage: q("24 mW"), At: q("75 °C"), Doubling: q("12 K"), Limit: q("125 °C")})},
	{"thermal.Leakage", thermal.Leakage, list(thermal.LeakageInputs{Ambient: q("60 °C"), Resistance: q("60 K/W"), Fixed: q("0.4 W"), Leakage: q("24 mW"), At: q("75 °C"), Doubling: q("12 K"), Limit: q("110 °C")})},
	{"thermal.PlateLoss", thermal.PlateLoss, list(thermal.Plate{Height: q("0.1 m"), Width: q("0.16 m"), Position: "vertical", Emissivity: q("90 %"), Pressure: q("90 kPa")}, q("80 °C"), q("40 °C"))},
	{"thermal.PlateLoss", thermal.PlateLoss, list(thermal.Plate{Height: q("0.1 m"), Width: q("0.16 m"), Position: "horizontal", Emissivity: q("90 %")}, q("80 °C"), q("40 °C"))},
	{"thermal.PlateTemperature", thermal.PlateTemperature, list(thermal.Plate{Height: q("0.1 m"), Width: q("0.16 m"), Position: "face up", Emissivity: q("90 %"), Pressure: q("90 kPa")}, q("3 W"), q("40 °C"))},
	{"thermal.CopperArea", thermal.CopperArea, list(copper)},
	{"thermal.CopperArea", thermal.CopperArea, list(thermal.CopperInputs{Pad: q("0.3 cm²"), Area: q("6.5 cm²"), Copper: q("35 µm"), Thickness: q("1.6 mm"), Transfer: q("12 W/(m²·K)"), OneFace: true})},
	// On the copper, and beyond it.
	{"thermal.Neighbour", thermal.Neighbour, list(copper, q("10 mm"))},
	{"thermal.Neighbour", thermal.Neighbour, list(copper, q("25 mm"))},
	{"thermal.Vias", thermal.Vias, list(thermal.ViasInputs{Count: 9, Drill: q("0.3 mm"), Plating: q("20 µm"), Length: q("1.6 mm"), Pad: q("9 mm²"), Filling: q("0.5 W/(m·K)")})},
}

var foster = thermal.Foster{
	Stages:    []thermal.FosterStage{{Resistance: q("0.693 K/W"), TimeConstant: q("1.222 ms")}, {Resistance: q("0.621 K/W"), TimeConstant: q("5.254 ms")}, {Resistance: q("0.307 K/W"), Capacitance: q("0.1242 J/K")}},
	KnownTime: q("10 ms"), KnownImpedance: q("1.3 K/W"),
}

var copper = thermal.CopperInputs{Pad: q("0.3 cm²"), Area: q("6.5 cm²"), Copper: q("35 µm"), Board: q("40 cm²"), Thickness: q("1.6 mm"), Transfer: q("12 W/(m²·K)"), CopperConducts: q("385 W/(m·K)"), BoardConducts: q("0.8 W/(m·K)")}

// curve is a table that holds beyond its ends.
func curve(text string) table.Table {
	t, err := table.Text(text)
	if err != nil {
		panic(err)
	}
	return t.Held()
}
