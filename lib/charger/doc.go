// Package charger computes the charge of lithium cells and how power is
// shared: the current that a resistor sets, the time and the energy of a
// charge at constant current and then constant voltage, the safety timer, heat
// and thermal regulation of a linear charger, a switching charger's input, the
// path between source, load and battery, and the temperature window that a
// thermistor opens.
//
//	s, err := charger.Setting(charger.SettingInputs{Constant: 1000V, Resistor: 4.7kΩ, Precharge: 10%, Termination: 10%})
//	t, err := charger.Charge(charger.ChargeInputs{
//		OpenCircuit: curve, Resistance: 200mΩ, Capacity: 500mAh, FullVoltage: 4.2V,
//		Current: s.Current, Termination: s.Termination,
//	})
//
// What fails: an input below the battery, a window whose divider would need a
// negative resistor, a termination above the charge current. A timer that is
// too short, a source that is too weak, are no errors but margins below zero,
// which a Require then reports.
//
// What it cannot know: the cell. Its limits for current, voltage and
// temperature are in its data sheet, and no formula replaces them. It covers no
// chargers for lead-acid or nickel and no input capacitors of a switching charger.
//
// Caution: a wrong charge sets lithium cells on fire. Charge protected cells or
// certified packs only, inside their temperature window, with a charger made
// for them, never without supervision while it is being designed; never charge
// a primary cell; follow the rules of the place, and leave packs to those who
// are licensed for them where that is the law.
package charger
