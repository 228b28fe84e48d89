package loop

import (
	"math"

	"ohmwright/units"
)

// circuit is one case of a plant and an amplifier, in coherent SI; what is
// left out is 0.
type circuit struct {
	gain, frequency, rightZero, resonance, quality, sampling, delay float64
	poles, zeros                                                    []float64

	gm, outputResistance, gainBandwidth, upper, lower float64
	leadResistor, leadCapacitor                       float64
	resistor, capacitor, highCapacitor                float64
}

// plants is how many values Plant has beside its lists.
const plants = 7

// circuits says how the values of a plant and an amplifier, in this order,
// make a circuit.
func circuits(p Plant, a Amplifier) (of func(x []float64) circuit, values []units.Quantity) {
	poles, zeros := len(p.Poles), len(p.Zeros)
	of = func(x []float64) circuit {
		n := plants + poles + zeros
		return plantOf(x[:n], poles, zeros).with(x[n:])
	}
	return of, append(p.values(), a.values()...)
}

func plantOf(x []float64, poles, zeros int) circuit {
	return circuit{
		gain: x[0], frequency: x[1], rightZero: x[2], resonance: x[3], quality: x[4], sampling: x[5], delay: x[6],
		poles: x[plants : plants+poles], zeros: x[plants+poles : plants+poles+zeros],
	}
}

// with adds an amplifier.
func (c circuit) with(x []float64) circuit {
	c.gm, c.outputResistance, c.gainBandwidth, c.upper, c.lower = x[0], x[1], x[2], x[3], x[4]
	c.leadResistor, c.leadCapacitor, c.resistor, c.capacitor, c.highCapacitor = x[5], x[6], x[7], x[8], x[9]
	return c
}

// plant is the response of the plant.
func (c circuit) plant(f float64) response {
	r := response{math.Log(c.gain), -2 * math.Pi * f * c.delay}
	for _, zero := range c.zeros {
		r = r.times(number{1, f / zero})
	}
	for _, pole := range c.poles {
		r = r.over(number{1, f / pole})
	}
	if c.rightZero != 0 {
		r = r.times(number{1, -f / c.rightZero})
	}
	if c.resonance != 0 {
		r = r.over(pair(f/c.resonance, c.quality))
	}
	if c.sampling != 0 {
		r = r.over(pair(2*f/c.frequency, c.sampling))
	}
	return r
}

// pair is 1 + s/(ω · quality) + s²/ω² at a multiple of ω.
func pair(n, quality float64) number { return number{(1 - n) * (1 + n), n / quality} }

// amplifier is the response of the amplifier. What lies between two nodes is
// of resistors and capacitors, and so is what they divide: no factor turns by
// more than a half.
func (c circuit) amplifier(f float64) response {
	w := 2 * math.Pi * f
	input := number{1 / c.upper, 0} // admittances
	if c.leadCapacitor != 0 {
		input = input.plus(number{c.leadResistor, -1 / (w * c.leadCapacitor)}.inverse())
	}
	network := number{c.resistor, -1 / (w * c.capacitor)}.inverse().plus(number{0, w * c.highCapacitor})
	unit := response{}
	if c.gm != 0 {
		if c.outputResistance != 0 {
			network = network.plus(number{1 / c.outputResistance, 0})
		}
		return unit.times(number{c.gm, 0}).times(input).over(input.plus(number{1 / c.lower, 0})).over(network)
	}
	r := unit.times(input).over(network)
	if c.gainBandwidth != 0 {
		noise := input.plus(number{1 / c.lower, 0}).times(network.inverse()).plus(number{1, 0})
		r = r.over(number{0, f / c.gainBandwidth}.times(noise).plus(number{1, 0}))
	}
	return r
}

// loop is the response of the whole loop.
func (c circuit) loop(f float64) response {
	p, a := c.plant(f), c.amplifier(f)
	return response{p.size + a.size, p.phase + a.phase}
}

// Margins are looked for between these shares of the switching frequency.
const least, most = 1e-6, 0.5

// crossover is the highest frequency at which the gain is 1.
func (c circuit) crossover() float64 {
	return c.last(func(f float64) bool { return c.loop(f).size > 0 })
}

// turning is where the phase passes −180° for good, or half the switching
// frequency if it does not before.
func (c circuit) turning() float64 {
	return c.last(func(f float64) bool { return c.loop(f).phase > -math.Pi })
}

// last finds where something that is so at low frequencies ends to be so for
// good: on a grid from above, then by halving. The grid has the resonance in
// it, whose peak may be narrower than a step.
func (c circuit) last(is func(f float64) bool) float64 {
	const points = 200
	step := math.Pow(most/least, 1.0/points)
	high := most * c.frequency
	if is(high) {
		return high
	}
	for range points {
		below := high / step
		if below < c.resonance && c.resonance < high {
			if is(c.resonance) {
				below = c.resonance
			} else if !is(below) {
				high = below
				continue
			}
		}
		if is(below) {
			for range 60 {
				if middle := (below + high) / 2; is(middle) {
					below = middle
				} else {
					high = middle
				}
			}
			return (below + high) / 2
		}
		high = below
	}
	return high
}
