// Package lib is the folder of electronics: one package a topic, pure
// functions on quantities. It holds nothing itself.
//
//	argument             the checks that all of them make on what they are given
//	preferred            preferred numbers, a stock of one's own, marking codes
//	plot                 curves, limits and axes of a picture, as data
//	table                curves of data sheets, read between their rows
//	divider              plain, loaded, feedback and measuring dividers
//	thermal              rise, chains, networks, boards in still air, pulses, runaway, derating
//	regulator/linear     linear regulators: headroom, heat, capacitors, ripple rejection
//	regulator/loop       control loops: crossover, margins, compensation, Bode plot
//	regulator/stepdown   step-down regulators: currents, capacitors, losses, limits, plants of the loop
//	regulator/stepup     step-up regulators: currents, capacitors, losses, limits, plant, inrush
//	regulator/inverting  inverting regulators and SEPICs: the same, and the coupling capacitor
//	regulator/switching  what all switching regulators share: the inductor's cycle, edges, start, lockout, input filter
//	ripple               rectifiers, hold-up, RC and LC filters, charging and discharging
//	capacitor           what a capacitor really is: bias, tolerance, temperature, age, heat, life
//	protect             fuses, clamps, hot plugging, inrush, inductive loads, reversed supplies
//	powertree           what a board takes from its supply, by rails and modes
//	battery             run time, capacity, headroom, pulses, packs
//	charger             charge current, time, heat, power sharing, temperature window
//	solar               panel, battery and state of charge through the year
//
// What every package keeps, and the tests of this folder hold it to:
//
//   - A function that can fail returns a result and an error. The error names
//     the function, the argument, its value, the limit, and what to change.
//     Nothing infinite and no not-a-number leaves a function.
//   - No function loses spread: in each case of values that have some, a result
//     is what the function gives of the exact values of that case. So none
//     reads a bare number or a limit out of a quantity, and a regime is chosen
//     in each case by itself (units.Where, Min, Max). Only preferred picks on
//     the nominal value, because a part is one part in all cases.
//   - A check of an argument holds in every case. Its error names the case that
//     fails, with the value there: "input is −1 V where Voff is −1 V".
//   - More than three arguments are the fields of a struct, and the fields of
//     a result are the steps of the computation.
//   - A formula is written once, as a chain of methods with one step to an
//     assignment. Each package embeds its source, from which the formula that
//     a note shows is drawn.
//   - The doc comment of a function gives the formula, each argument and
//     result with its unit, where it holds, the error outside of that, an
//     example, the source, and the usual cautions.
package lib
