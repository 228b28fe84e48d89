// Package linear computes linear voltage regulators: a pass element between
// input and output that a loop holds just open enough.
//
//	input ──┬── pass element ──┬── output
//	     input        │     output
//	     capacitor  loop    capacitor
//	        │         │        │
//	       ground   ground    ground
//
// The questions in the order in which a design asks them:
//
//	Dropout, DropoutAtLoad, DropoutOfSwitch   what the pass element needs
//	Headroom                                  is it there, and what comes out if not
//	Setting                                   the output that the feedback resistors make
//	GroundCurrent, Loss                       heat, efficiency, what the part itself takes
//	Heat                                      junction, largest load, warmest air
//	OutputCapacitor, ESRZero                  is the loop content with the capacitor
//	LoadStep, LoadStepCapacitor               how far a load step pulls the output
//	InputDip, InputCapacitor, HotPlug         what a long supply lead does at the input
//	Rejection, RejectionOfLoop, Ripple        how much of the input ripple comes through
//	ReverseCurrent, Surge                     input shorted, input far too high
//
//	h, err := linear.Headroom(linear.HeadroomInputs{Input: 5V, Output: 3.3V, Dropout: 450mV})
//	// h.Headroom: 1.25 V; h.LeastInput: 3.75 V
//
// Where a value has spread, every case is computed by itself: in one the
// regulator may have dropped out while it holds its output in another, and
// Headroom's Delivered is right in both. A limit that is missed shows as a
// negative margin in the result (Headroom, Heat's Margin, OutputCapacitor's
// margins), for a requirement of the note; what no regulator can do, such as
// an output above the input in Loss, is an error that names the case.
//
// What the package does not cover: loop gain and phase (a data sheet states
// a window for the capacitor instead, and that is what is checked), output
// noise, regulators in parallel, negative regulators (use absolute values),
// and heating by pulses shorter than the board takes to warm (Heat is the
// steady state).
//
// What it cannot know: whether a figure of the data sheet is typical or a
// limit, at which load and temperature it was taken, and the copper area for
// which the thermal resistance holds.
//
// Cautions for every linear regulator. The case or tab is often connected to
// ground or to the output: look before a heat sink is screwed on. A
// regulator that shuts down when hot comes back when it is cool: the load is
// switched again and again without warning. Short-circuit current at full
// input is a larger loss than any load; thermal shutdown is then all that
// stands between the part and its end. Capacitors larger than the data sheet
// expects feed back through the part when the input is shorted (see
// ReverseCurrent). In a vehicle the input sees load dump, jump start and
// reversed batteries (see Surge).
package linear
