// Package protect computes what keeps a board alive when the outside is
// rough: fuses, clamps against surges and discharges, hot plugging and
// inrush, inductive loads, reversed and excessive supplies.
//
//	supply ── fuse ──┬── reverse polarity ──┬── slope or resistor ──┬── regulator
//	               clamp               disconnect              capacitors
//
// The questions in the order in which a design asks them:
//
//	Fuse, FusePulse, PulseIntegral, CapacitorPulse   which blow fuse, and does inrush spare it
//	FuseClearing, FuseSelectivity                    does it save what lies behind, and that alone
//	Resettable, Tripped                              which resettable fuse, and what it does when tripped
//	Clamp, Surge, PulsePower, ClampHeat              what a clamp lets through, and survives
//	Discharge, DischargeIntoCapacitor                what is left of an electrostatic discharge
//	FailedShort                                      the clamp has failed: does the fuse open
//	HotPlug, HotPlugDamping                          the cable rings with ceramic capacitors
//	Inrush, Thermistor, SlopeInrush, SafeArea        charging the capacitors
//	InductiveTurnOff, InductiveSnubber               switching relays, valves and motors off
//	ReverseDiode, ReverseSwitch                      plus and minus exchanged
//	Disconnect, DisconnectDivider                    too much for too long
//	Chain                                            the whole input, case by case
//
//	f, err := protect.Fuse(protect.FuseInputs{Rated: 5A, Family: "UL 248", Load: 3A, Supply: 32V, Voltage: 63V, Fault: 40A, Breaking: 50A})
//	// f.Allowed: 3.75 A; a Load of 4 A is an error, 250 mA above it
//
// A design that cannot be is an error that says which limit, by how much, and
// what to change: a clamp that conducts in operation, a fuse that trips hot at
// its load, a supply above what a part breaks. A limit that one size more
// would keep shows as a margin below zero, for a requirement of the note.
//
// Curves of data sheets are tables (package table): hold currents over
// temperature, derating, opening times, a safe operating area.
//
// Where a value has spread, every case is computed by itself, each on its own
// side of a boundary: damped or not, conducting or not.
//
// What the package does not cover: mains, whose fuses, varistors and distances
// are a matter of standards and licensed people; gas discharge tubes and
// thyristor clamps, which fall back to a low voltage and may stay there;
// varistors that age; the foldback of hot-swap controllers; electronic fuses;
// ferrite beads; the layout, on which a clamp's success depends as much as on
// its choice.
//
// What it cannot know: whether a figure is typical or a limit, and how the
// part is cooled. Cautions for all of it: capacitors and inductors keep their
// energy when the supply is gone; a battery gives hundreds of amperes into a
// screwdriver; tripped and failed parts get hot enough to burn fingers and
// board; codes that apply where the board is used come before any computation.
package protect
