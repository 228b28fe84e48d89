package units

import "math"

// Absolute returns the thermodynamic temperature of a point on the scale, for
// physics: Absolute(25°C) is 298.15 K.
func Absolute(t Quantity) Quantity {
	if t.d.Kind() != PointScale {
		refuse("cannot take Absolute of "+t.described(), "it needs a point on the temperature scale, as in 25°C")
	}
	return Quantity{v: t.v, d: dimKelvin | computedMark, e: each(t, itself)}
}

// Temperature returns the point on the scale that has the thermodynamic
// temperature x, the other way round from Absolute: Temperature(298.15K) is
// 25 °C. It panics for less than 0 K and for what is no temperature.
func Temperature(x Quantity) Quantity {
	if x.d.Kind() != PlainScale || x.d&exponents != dimKelvin&exponents {
		refuse("cannot take Temperature of "+x.described(), "it needs a thermodynamic temperature, as in 298.15K")
	}
	within("Temperature", x, "0 K is the lowest", func(v float64) bool { return !(v < 0) })
	zero := MustParse("0°C")
	return Quantity{v: x.v, d: zero.d | computedMark, u: zero.u, e: each(x, itself)}
}

// Power returns the power of a power level, 10^(level/10) times its
// reference: Power(0dBm) is 1 mW.
func Power(level Quantity) Quantity { return ofLevel("Power", level, dimWatt, 10, "0dBm") }

// Voltage returns the voltage of a voltage level, 10^(level/20) times its
// reference: Voltage(0dBV) is 1 V.
func Voltage(level Quantity) Quantity { return ofLevel("Voltage", level, dimVolt, 20, "0dBV") }

func ofLevel(f string, level Quantity, d Dim, per float64, example string) Quantity {
	if level.d.Kind() != LevelScale || level.d&exponents != d {
		refuse("cannot take "+f+" of "+level.described(), "it needs a level, as in "+example)
	}
	value := func(v float64) float64 { return pow10(v / per) }
	return bounded(f, level, Quantity{v: value(level.v), d: d | computedMark, e: each(level, value)})
}

// LevelOf returns the level of x over ref, 10·log10(x/ref) of powers and
// 20·log10(x/ref) of voltages: LevelOf(25mW, 1mW) is 13.98 dBm. Powers have
// levels over 1 W and 1 mW; voltages over 1 V, 1 mV, 1 µV and 0.7746 V. In
// cells it is called Level.
func LevelOf(x, ref Quantity) Quantity {
	plainOnly("Level", x)
	plainOnly("Level", ref)
	mustCompare(x, ref)
	positive("Level", x)
	positive("Level", ref)
	if ref.HasSpread() {
		refuse("cannot take Level over "+ref.described(), "a reference has no spread: PowerGain(x/y) or VoltageGain(x/y) is the ratio of two values in dB")
	}
	per := 10.0
	switch x.d & exponents {
	case dimVolt:
		per = 20
	case dimWatt:
	default:
		refuse("cannot take Level of "+x.described(), "only powers and voltages have levels: PowerGain(x/y) or VoltageGain(x/y) is the ratio in dB")
	}
	d := x.d&exponents | Dim(LevelScale)<<kindShift
	for _, e := range std.order {
		// A unit whose zero is ref: dBm for 1 mW.
		if e.unit.dim == d {
			zero, rel := e.unit.toSI(decimal{}), 1e-12
			if zero != math.Trunc(zero) {
				rel = 1e-5 // nobody writes out 0.7745966692…V
			}
			if r := pow10(zero / per); math.Abs(r-ref.v) <= rel*r {
				u := std.unlessPreferred(e.unit)
				return Quantity{v: per * log10(x.v), d: d | computedMark, u: u, e: each(x, func(v float64) float64 { return per * log10(v) })}
			}
		}
	}
	refuse("cannot take Level over "+ref.described(), "levels are over 1mW, 1W, 1V, 1mV, 1µV or 0.7746V: PowerGain(x/y) or VoltageGain(x/y) is any other ratio in dB")
	return Quantity{}
}

// PowerRatio returns the ratio of two powers that a gain stands for,
// 10^(g/10): 100 for 20 dB.
func PowerRatio(gain Quantity) Quantity { return ratioOf("PowerRatio", gain, 10) }

// VoltageRatio returns the ratio of two voltages or currents that a gain
// stands for, 10^(g/20): 10 for 20 dB.
func VoltageRatio(gain Quantity) Quantity { return ratioOf("VoltageRatio", gain, 20) }

func ratioOf(f string, gain Quantity, per float64) Quantity {
	if gain.Dim() != dimGain {
		refuse("cannot take "+f+" of "+gain.described(), "it needs a gain, as in 3dB")
	}
	return bounded(f, gain, number(gain, func(g float64) float64 { return pow10(g / per) }))
}

// PowerGain returns the gain in dB of a ratio of powers, 10·log10(x).
func PowerGain(ratio Quantity) Quantity { return gainOf("PowerGain", ratio, 10) }

// VoltageGain returns the gain in dB of a ratio of voltages or currents,
// 20·log10(x).
func VoltageGain(ratio Quantity) Quantity { return gainOf("VoltageGain", ratio, 20) }

func gainOf(f string, x Quantity, per float64) Quantity {
	numberOnly(f, x)
	positive(f, x)
	gain := func(r float64) float64 { return per * log10(r) }
	return Quantity{v: gain(x.v), d: dimGain | computedMark, e: each(x, gain)}
}

// PowerSum returns the level of several signals together whose powers add,
// because they are not correlated: two of 10 dBm make 13.01 dBm. For voltage
// levels it holds across one and the same resistance.
func PowerSum(levels ...Quantity) Quantity {
	if len(levels) == 0 {
		refuse("cannot take PowerSum of nothing", "write PowerSum(a, b)")
	}
	first := levels[0]
	numbers := make([]float64, len(levels))
	for i, l := range levels {
		if l.d.Kind() != LevelScale {
			refuse("cannot take PowerSum of "+l.described(), "it needs levels, as in 10dBm")
		}
		mustCompare(first, l)
		numbers[i] = l.v
	}
	return Quantity{v: powerSum(numbers), d: first.d | computedMark, u: first.u, e: every(powerSum, levels...)}
}

func powerSum(levels []float64) float64 {
	top := levels[0]
	for _, l := range levels {
		top = max(top, l)
	}
	sum := 0.0
	for _, l := range levels {
		sum += pow10((l - top) / 10)
	}
	return top + 10*log10(sum)
}

func itself(x float64) float64 { return x }
