// Package battery computes what a battery gives: the average current of
// operating modes, the capacity that temperature, rate and age leave, how long
// it lasts, how much of it a regulator can use, and what pulses do to its
// voltage. It serves rechargeable and primary cells alike.
//
//	m, err := battery.Modes(battery.ModesInputs{Period: 10min, Modes: []battery.Mode{
//		{Name: "send", Current: 40mA, Time: 80ms},
//		{Name: "measure", Current: 4mA, Time: 1.5s},
//		{Name: "sleep", Current: 6µA},
//	}})
//	t, err := battery.RunTime(battery.RunTimeInputs{Capacity: 500mAh, Current: m.Average, SelfDischarge: 2%, Per: 30d})
//
// What fails: modes that leave time over or take more than there is, a mode
// with both a current and a power, a table that is read outside of its rows.
// A battery that cannot hold a load is no error but a margin below zero, which
// a Require then reports.
//
// What it cannot know: which curve of a data sheet is typical and which a
// limit; the recovery of a cell after a pulse, for which it takes a resistance
// at the length of the pulse; the age of a cell that is stored full and hot.
// It does not cover the capacitor that a pulse needs (the inverse of Pulse), nor
// cells that differ within a pack.
//
// Caution: lithium cells burn when they are overcharged, shorted, crushed,
// frozen while charged or charged in reverse. Use protected cells or certified
// packs, never charge a primary cell, follow the rules for transport and
// disposal of the place, and leave packs to those who are licensed for them
// where that is the law. Lead-acid batteries give off hydrogen, which explodes:
// air the place. Any battery feeds a short circuit with all it has: see Pack,
// and put the fuse at the battery.
package battery
