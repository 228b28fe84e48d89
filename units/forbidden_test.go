package units

import "testing"

// What must not be computed, both ways round where there are two: the list
// is the specification of points, differences, levels and gains, and the
// table of all messages.
func TestForbidden(t *testing.T) {
	t.Parallel()
	add, sub, mul, div := Quantity.Add, Quantity.Sub, Quantity.Mul, Quantity.Div
	less := func(a, b Quantity) Quantity { a.Less(b); return a }
	equal := func(a, b Quantity) Quantity { a.Equal(b); return a }
	zero := Quantity{}
	for _, c := range []struct {
		op   func(a, b Quantity) Quantity
		a, b Quantity
		want string
	}{
		// dimensions
		{add, q("3.3 V"), q("20 mA"), "cannot add 3.3 V (voltage) and 20 mA (current)"},
		{add, q("20 mA"), q("3.3 V"), "cannot add 20 mA (current) and 3.3 V (voltage)"},
		{sub, q("3.3 V"), q("20 mA"), "cannot subtract 20 mA (current) from 3.3 V (voltage)"},
		{less, q("3.3 V"), q("20 mA"), "cannot compare 3.3 V (voltage) with 20 mA (current)"},
		{equal, q("3.3 V"), q("20 mA"), "cannot compare 3.3 V (voltage) with 20 mA (current)"},
		{add, q("3.3 V"), Number(1), "cannot add 3.3 V (voltage) and 1 (number): write the number with its unit, as in 1V"},
		{add, Number(1), q("10 kΩ"), "cannot add 1 (number) and 10 kΩ (resistance): write the number with its unit, as in 1Ω"},
		{less, q("3.3 V"), Number(2), "cannot compare 3.3 V (voltage) with 2 (number): write the number with its unit, as in 1V"},
		{less, q("3.3 V"), Number(0), "cannot compare 3.3 V (voltage) with 0 (number): write the number with its unit, as in 1V"},
		{add, q("10 V"), q("5 %"), "cannot add 10 V (voltage) and 5 % (number): a share of a value is a product, x*(1 + 5%)"},
		{sub, q("10 V"), q("5 %"), "cannot subtract 5 % (number) from 10 V (voltage): a share of a value is a product, x*(1 + 5%)"},
		{add, q("5 J/K"), q("1 m^2"), "cannot add 5 J/K (heat capacity) and 1 m² (area)"},
		{add, q("1 kg*m^3"), q("1 V"), "cannot add 1 kg·m³ (kg·m³) and 1 V (voltage)"},
		{div, q("5 V"), q("0 Ω"), "cannot divide 5 V (voltage) by 0 Ω (resistance): the divisor is zero"},
		{div, q("5 V"), zero, "cannot divide 5 V (voltage) by 0 (number): the divisor is zero"},
		{div, q("5 mAh"), Number(0), "cannot divide 5 mAh (charge) by 0 (number): the divisor is zero"},
		// temperature
		{add, q("25 °C"), q("25 °C"), "cannot add 25 °C (temperature on the scale) and 25 °C (temperature on the scale): a sum of two points means nothing: add a difference in K, or take the mean as T1 + (T2 − T1)/2"},
		{mul, q("25 °C"), Number(2), "cannot multiply 25 °C (temperature on the scale) by 2 (number): a point on the scale has no product: multiply a difference, as in (T − 25°C), or use Absolute(T)"},
		{mul, Number(2), q("25 °C"), "cannot multiply 2 (number) by 25 °C (temperature on the scale): a point on the scale has no product: multiply a difference, as in (T − 25°C), or use Absolute(T)"},
		{div, q("25 °C"), Number(2), "cannot divide 25 °C (temperature on the scale) by 2 (number): a point on the scale has no product: multiply a difference, as in (T − 25°C), or use Absolute(T)"},
		{div, Number(2), q("25 °C"), "cannot divide 2 (number) by 25 °C (temperature on the scale): a point on the scale has no product: multiply a difference, as in (T − 25°C), or use Absolute(T)"},
		{mul, q("25 °C"), q("2 W/K"), "cannot multiply 25 °C (temperature on the scale) by 2 W/K (thermal conductance): a point on the scale has no product: multiply a difference, as in (T − 25°C), or use Absolute(T)"},
		{mul, q("25 °C"), q("25 °C"), "cannot multiply 25 °C (temperature on the scale) by 25 °C (temperature on the scale): a point on the scale has no product: multiply a difference, as in (T − 25°C), or use Absolute(T)"},
		{div, q("25 °C"), q("25 °C"), "cannot divide 25 °C (temperature on the scale) by 25 °C (temperature on the scale): a point on the scale has no product: multiply a difference, as in (T − 25°C), or use Absolute(T)"},
		{sub, q("40 K"), q("25 °C"), "cannot subtract 25 °C (temperature on the scale) from 40 K (temperature difference): subtract the difference from the point"},
		{less, q("40 K"), q("25 °C"), "cannot compare 40 K (temperature difference) with 25 °C (temperature on the scale): 25°C is a point on the scale and 40K a difference: subtract a point first, or use Absolute(T)"},
		{less, q("25 °C"), q("40 K"), "cannot compare 25 °C (temperature on the scale) with 40 K (temperature difference): 25°C is a point on the scale and 40K a difference: subtract a point first, or use Absolute(T)"},
		{add, q("25 °C"), Number(5), "cannot add 25 °C (temperature on the scale) and 5 (number): a point on the scale changes by a difference in K"},
		{add, Number(5), q("25 °C"), "cannot add 5 (number) and 25 °C (temperature on the scale): a point on the scale changes by a difference in K"},
		{less, q("25 °C"), q("25 C"), "cannot compare 25 °C (temperature on the scale) with 25 C (charge): C is the coulomb: a temperature is written 25°C or 25degC"},
		{less, q("25 C"), q("25 °C"), "cannot compare 25 C (charge) with 25 °C (temperature on the scale): C is the coulomb: a temperature is written 25°C or 25degC"},
		{sub, q("-200 °C"), q("100 K"), "cannot subtract 100 K (temperature difference) from −200 °C (temperature on the scale): the result is below absolute zero"},
		{add, q("25 °C"), q("-300 K"), "cannot add 25 °C (temperature on the scale) and −300 K (temperature difference): the result is below absolute zero"},
		{add, q("25 °C"), q("3 dB"), "cannot add 25 °C (temperature on the scale) and 3 dB (gain): a point on the scale changes by a difference in K"},
		// the constant 0 and points
		{add, q("25 °C"), zero, "cannot add 25 °C (temperature on the scale) and 0 (number): the constant 0 has no place on this scale: write its unit"},
		{less, q("25 °C"), zero, "cannot compare 25 °C (temperature on the scale) with 0 (number): the constant 0 has no place on this scale: write its unit"},
		{equal, zero, q("25 °C"), "cannot compare 0 (number) with 25 °C (temperature on the scale): the constant 0 has no place on this scale: write its unit"},
		{sub, q("14 dBm"), zero, "cannot subtract 0 (number) from 14 dBm (power level): the constant 0 has no place on this scale: write its unit"},
		{less, zero, q("14 dBm"), "cannot compare 0 (number) with 14 dBm (power level): the constant 0 has no place on this scale: write its unit"},
		// levels and gains
		{add, q("14 dBm"), q("10 dBm"), "cannot add 14 dBm (power level) and 10 dBm (power level): levels do not add: PowerSum(a, b) is the level of both powers together; a gain in dB may be added"},
		{sub, q("14 dBm"), q("10 dBV"), "cannot subtract 10 dBV (voltage level) from 14 dBm (power level): only levels of the same kind have a difference"},
		{sub, q("3 dB"), q("14 dBm"), "cannot subtract 14 dBm (power level) from 3 dB (gain): subtract the gain from the level"},
		{mul, q("14 dBm"), Number(2), "cannot multiply 14 dBm (power level) by 2 (number): a level has no product: add a gain in dB, or use Power(x) or Voltage(x)"},
		{mul, Number(2), q("14 dBm"), "cannot multiply 2 (number) by 14 dBm (power level): a level has no product: add a gain in dB, or use Power(x) or Voltage(x)"},
		{div, q("14 dBm"), Number(2), "cannot divide 14 dBm (power level) by 2 (number): a level has no product: add a gain in dB, or use Power(x) or Voltage(x)"},
		{add, q("14 dBm"), q("1 mW"), "cannot add 14 dBm (power level) and 1 mW (power): a level changes by a gain in dB: Power(x) and Voltage(x) give the value of a level, Level(x, 1mW) the level of a value"},
		{add, q("1 mW"), q("14 dBm"), "cannot add 1 mW (power) and 14 dBm (power level): a level changes by a gain in dB: Power(x) and Voltage(x) give the value of a level, Level(x, 1mW) the level of a value"},
		{add, q("14 dBm"), Number(3), "cannot add 14 dBm (power level) and 3 (number): a level changes by a gain in dB: Power(x) and Voltage(x) give the value of a level, Level(x, 1mW) the level of a value"},
		{less, q("14 dBm"), q("3 dB"), "cannot compare 14 dBm (power level) with 3 dB (gain): a gain is the difference of two levels: compare with a level, as in 3dBm"},
		{less, q("14 dBm"), q("1 mW"), "cannot compare 14 dBm (power level) with 1 mW (power): Power(x) and Voltage(x) give the value of a level, Level(x, 1mW) the level of a value"},
		{less, q("14 dBm"), q("14 dBV"), "cannot compare 14 dBm (power level) with 14 dBV (voltage level)"},
		{mul, q("3 dB"), q("3 dB"), "cannot multiply 3 dB (gain) by 3 dB (gain): gains add: write g1 + g2; PowerRatio(g) and VoltageRatio(g) are ratios that multiply"},
		{div, Number(1), q("3 dB"), "cannot divide 1 (number) by 3 dB (gain): PowerRatio(g) and VoltageRatio(g) are ratios to divide by"},
		{add, q("3 dB"), Number(2), "cannot add 3 dB (gain) and 2 (number): a ratio becomes a gain by PowerGain(x) or VoltageGain(x), a gain a ratio by PowerRatio(g) or VoltageRatio(g)"},
		{add, Number(2), q("3 dB"), "cannot add 2 (number) and 3 dB (gain): a ratio becomes a gain by PowerGain(x) or VoltageGain(x), a gain a ratio by PowerRatio(g) or VoltageRatio(g)"},
		{less, q("3 dB"), Number(2), "cannot compare 3 dB (gain) with 2 (number): PowerRatio(g) and VoltageRatio(g) give the ratio of a gain"},
		{add, q("3 dB"), q("3 dB/m"), "cannot add 3 dB (gain) and 3 dB/m (attenuation per length)"},
		{add, q("14 dBm"), q("3 dB/m"), "cannot add 14 dBm (power level) and 3 dB/m (attenuation per length): a level changes by a gain in dB: Power(x) and Voltage(x) give the value of a level, Level(x, 1mW) the level of a value"},
		// what is counted
		{add, q("1 kHz"), q("1 rad/s"), "cannot add 1 kHz (frequency) and 1 rad/s (angular frequency): an angular frequency is 2·Pi times the frequency"},
		{less, q("1 rad/s"), q("1 kHz"), "cannot compare 1 rad/s (angular frequency) with 1 kHz (frequency): an angular frequency is 2·Pi times the frequency"},
		{add, q("1 kHz"), q("9600 baud"), "cannot add 1 kHz (frequency) and 9.6 kBd (symbol rate): they count different things"},
		{add, q("1 Ω"), q("1 Ω/sq"), "cannot add 1 Ω (resistance) and 1 Ω/sq (sheet resistance): multiply by the number of squares, as in 10sq"},
		{less, q("1 Ω/sq"), q("1 Ω"), "cannot compare 1 Ω/sq (sheet resistance) with 1 Ω (resistance): multiply by the number of squares, as in 10sq"},
		{add, q("8 bit"), Number(1), "cannot add 8 bit (information) and 1 (number): write the number with its unit, as in 1bit"},
		{add, q("1 kbit/s"), q("1 kHz"), "cannot add 1 kbit/s (data rate) and 1 kHz (frequency): they count different things"},
	} {
		e := refusal(func() { c.op(c.a, c.b) })
		switch {
		case e == nil:
			t.Errorf("not refused: %s", c.want)
		case e.Error() != c.want:
			t.Errorf("\n\tsays %s\n\twant %s", e.Error(), c.want)
		}
	}
}

// The same for functions.
func TestForbiddenInFunctions(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		f    func()
		want string
	}{
		{func() { q("25 °C").Neg() }, "cannot negate the temperature 25 °C: a point below zero is written as a literal, -40°C; a difference in K"},
		{func() { q("14 dBm").Neg() }, "cannot negate the level 14 dBm: a level below zero is written as a literal, -120dBm; a gain in dB"},
		{func() { q("5 V").Float() }, "cannot take 5 V (voltage) as a plain number: divide by a value of the same kind first, as in x/1V"},
		{func() { q("62 °C/W").Float() }, "cannot take 62 °C/W (thermal resistance) as a plain number: divide by a value of the same kind first, as in x/1K/W"},
		{func() { q("25 °C").Float() }, "cannot take 25 °C (temperature on the scale) as a plain number: Absolute(T)/1K is the temperature in kelvin as a number"},
		{func() { q("14 dBm").Float() }, "cannot take 14 dBm (power level) as a plain number: Power(x)/1mW or Voltage(x)/1V is a number"},
		{func() { q("3 dB").Float() }, "cannot take 3 dB (gain) as a plain number: PowerRatio(g) and VoltageRatio(g) are numbers"},
		{func() { Sqrt(q("-4 V²")) }, "cannot take Sqrt of −4 V² (voltage squared): the argument is negative"},
		{func() { Sqrt(q("25 °C")) }, "cannot take Sqrt of 25 °C (temperature on the scale): use Absolute(T), or a difference"},
		{func() { Sqrt(Sqrt(Sqrt(q("4 V")))) }, "its exponent would be finer than a half or larger than 63"},
		{func() { Exp(q("5 V")) }, "cannot take Exp of 5 V (voltage): divide by a value of the same kind first, as in Exp(x/1V)"},
		{func() { Exp(q("25 °C")) }, "cannot take Exp of 25 °C (temperature on the scale): use Absolute(T), or a difference"},
		{func() { Exp(Number(1000)) }, "cannot take Exp of 1000 (number): the result is too large"},
		{func() { Ln(Number(0)) }, "cannot take Ln of 0 (number): the argument is not positive"},
		{func() { Ln(Number(-1)) }, "cannot take Ln of −1 (number): the argument is not positive"},
		{func() { Log10(q("1 mW")) }, "cannot take Log10 of 1 mW (power): divide by a value of the same kind first, as in Log10(x/1W)"},
		{func() { Sin(q("14 dBm")) }, "cannot take Sin of 14 dBm (power level): use Power(x) or Voltage(x)"},
		{func() { Tan(q("3 dB")) }, "cannot take Tan of 3 dB (gain): use PowerRatio(g) or VoltageRatio(g)"},
		{func() { Pow(q("2 V"), 1.3) }, "cannot take Pow of 2 V (voltage): the exponent of a value with a dimension is a whole number or a half"},
		{func() { Pow(Number(-2), 0.5) }, "cannot take Pow of −2 (number): a negative number has whole powers only"},
		{func() { Pow(Number(0), -1) }, "cannot take Pow of 0 (number): zero has no negative power"},
		{func() { Pow(Number(10), 400) }, "cannot take Pow of 10 (number): the result is too large"},
		{func() { Abs(q("25 °C")) }, "cannot take Abs of 25 °C (temperature on the scale): zero is no natural place on this scale: take Abs of a difference"},
		{func() { Min(q("5 V"), q("1 A")) }, "cannot compare 5 V (voltage) with 1 A (current)"},
		{func() { Max(q("5 V"), q("1 A")) }, "cannot compare 5 V (voltage) with 1 A (current)"},
		{func() { Where(q("1 V"), q("2 V"), q("1 A"), q("1 Ω")) }, "cannot compare 1 A (current) with 1 Ω (resistance)"},
		{func() { Parallel(q("10 kΩ"), q("1 A")) }, "cannot compare 10 kΩ (resistance) with 1 A (current)"},
		{func() { Parallel(q("10 kΩ"), q("-10 kΩ")) }, "cannot put 10 kΩ (resistance) and the others in parallel: their conductances cancel"},
		{func() { Absolute(q("40 K")) }, "cannot take Absolute of 40 K (temperature difference): it needs a point on the temperature scale, as in 25°C"},
		{func() { Power(q("0 dBV")) }, "cannot take Power of 0 dBV (voltage level): it needs a level, as in 0dBm"},
		{func() { Voltage(q("3 dB")) }, "cannot take Voltage of 3 dB (gain): it needs a level, as in 0dBV"},
		{func() { LevelOf(q("1 V"), q("1 mW")) }, "cannot compare 1 V (voltage) with 1 mW (power)"},
		{func() { LevelOf(q("-1 W"), q("1 mW")) }, "cannot take Level of −1 W (power): the argument is not positive"},
		{func() { LevelOf(q("1 A"), q("1 A")) }, "cannot take Level of 1 A (current): only powers and voltages have levels: PowerGain(x/y) or VoltageGain(x/y) is the ratio in dB"},
		{func() { LevelOf(q("1 W"), q("1.000001 mW")) }, "cannot take Level over 1 mW (power): levels are over 1mW, 1W, 1V, 1mV, 1µV or 0.7746V: PowerGain(x/y) or VoltageGain(x/y) is any other ratio in dB"},
		{func() { LevelOf(q("1 W"), q("2 W")) }, "cannot take Level over 2 W (power): levels are over 1mW, 1W, 1V, 1mV, 1µV or 0.7746V: PowerGain(x/y) or VoltageGain(x/y) is any other ratio in dB"},
		{func() { PowerRatio(Number(2)) }, "cannot take PowerRatio of 2 (number): it needs a gain, as in 3dB"},
		{func() { VoltageGain(Number(0)) }, "cannot take VoltageGain of 0 (number): the argument is not positive"},
		{func() { PowerSum() }, "cannot take PowerSum of nothing: write PowerSum(a, b)"},
		{func() { PowerSum(q("3 dB")) }, "cannot take PowerSum of 3 dB (gain): it needs levels, as in 10dBm"},
		{func() { PowerSum(q("3 dBm"), q("3 dBV")) }, "cannot compare 3 dBm (power level) with 3 dBV (voltage level)"},
		{func() { In(q("5 V"), "mA") }, "cannot show 5 V (voltage) in mA: the unit measures current"},
		{func() { In(q("5 V"), "mx") }, "unknown unit mx: did you mean m?"},
		{func() { In(q("25 °C"), "K") }, "cannot show 25 °C (temperature on the scale) in K: Absolute(T) is the temperature in kelvin, T − 0°C the difference"},
		{func() { In(q("40 K"), "°C") }, "cannot show 40 K (temperature difference) in °C: a difference is shown in K; Temperature(x) is the point of a thermodynamic temperature, 25°C + x one above another point"},
		{func() { In(q("14 dBm"), "mW") }, "cannot show 14 dBm (power level) in mW: write Power(x)"},
		{func() { In(q("14 dBV"), "V") }, "cannot show 14 dBV (voltage level) in V: write Voltage(x)"},
		{func() { In(q("1 mW"), "dBm") }, "cannot show 1 mW (power) in dBm: write Level(x, 1mW) or Level(x, 1V)"},
		{func() { In(Number(2), "dB") }, "cannot show 2 (number) in dB: write PowerGain(x) or VoltageGain(x)"},
		{func() { In(q("3 dB"), "%") }, "cannot show 3 dB (gain) in %: write PowerRatio(x) or VoltageRatio(x)"},
		{func() { In(q("1 kHz"), "rad/s") }, "cannot show 1 kHz (frequency) in rad/s: an angular frequency is 2·Pi times the frequency: multiply by 2*Pi"},
		{func() { In(q("3000 rpm"), "rad/s") }, "cannot show 3000 rpm (frequency) in rad/s: an angular frequency is 2·Pi times the frequency: multiply by 2*Pi"},
		{func() { In(q("6 rad/s"), "Hz") }, "cannot show 6 rad/s (angular frequency) in Hz: a frequency is the angular frequency divided by 2·Pi: divide by 2*Pi"},
		{func() { In(q("6 rad/s"), "rpm") }, "cannot show 6 rad/s (angular frequency) in rpm: a frequency is the angular frequency divided by 2·Pi: divide by 2*Pi"},
		{func() { In(q("1 kbit/s"), "Hz") }, "cannot show 1 kbit/s (data rate) in Hz: it counts something else"},
		{func() { In(q("9600 baud"), "bit/s") }, "cannot show 9.6 kBd (symbol rate) in bit/s: it counts something else"},
		{func() { In(q("5 Ω/sq"), "Ω") }, "cannot show 5 Ω/sq (sheet resistance) in Ω: multiply by the number of squares, as in 10sq"},
		{func() { In(q("8 bit"), "1") }, "cannot show 8 bit (information) in 1: divide by 1bit"},
		{func() { Range(q("5 V"), q("4 V"), q("6 V")) }, "the values of Range are out of order: 5 V, 4 V, 6 V: write the smallest first and the largest last"},
		{func() { Band(q("5 V"), q("4 A"), q("6 V")) }, "cannot compare 5 V (voltage) with 4 A (current)"},
		{func() { Band(Quantity{}, q("4 °C"), q("6 °C")) }, "cannot compare 0 (number) with 4 °C (temperature on the scale): the constant 0 has no place on this scale: write its unit"},
		{func() { Range(q("-4 °C"), Quantity{}, q("6 °C")) }, "cannot compare −4 °C (temperature on the scale) with 0 (number): the constant 0 has no place on this scale: write its unit"},
		{func() { Tolerance(q("25 °C"), q("5 %")) }, "cannot use ± 5 % (number) on 25 °C (temperature on the scale): a percentage of a point on the scale means nothing: write a difference, 25°C ± 5K"},
		{func() { Tolerance(q("25 °C"), q("5 °C")) }, "cannot use ± 5 °C (temperature on the scale) on 25 °C (temperature on the scale): a point on the scale varies by a difference, 25°C ± 5K"},
		{func() { Tolerance(q("14 dBm"), q("5 %")) }, "cannot use ± 5 % (number) on 14 dBm (power level): a percentage of decibels is ambiguous: write the tolerance in dB"},
		{func() { Tolerance(q("14 dBm"), q("5 dBm")) }, "cannot use ± 5 dBm (power level) on 14 dBm (power level): a level varies by a gain, 10dBm ± 1dB"},
		{func() { Tolerance(q("10 kΩ"), Number(0.01)) }, "cannot use ± 0.01 (number) on 10 kΩ (resistance): write a percentage, ± 1%, or a value with its unit"},
		{func() { Tolerance(q("10 kΩ"), q("1 V")) }, "cannot use ± 1 V (voltage) on 10 kΩ (resistance): the tolerance is a percentage or a value of the same kind"},
		{func() { Tolerance(q("10 kΩ"), q("-1 %")) }, "cannot use ± −1 % (number) on 10 kΩ (resistance): a tolerance is not negative"},
		{func() { Tolerance(q("50 %"), q("2 %")) }, "cannot use ± 2 % (number) on 50 % (number): a share of a share is ambiguous: write Band(min, typ, max)"},
		{func() { Tolerance(Range(q("1 V"), q("2 V"), q("3 V")), q("2 %")) }, "cannot use ± 2 % (number) on 2 V (voltage): a Range has its ends already"},
		{func() { Tolerance(q("1 V"), Tolerance(q("1 V"), q("2 %"))) }, "cannot use ± 1 V (voltage) on 1 V (voltage): the tolerance has spread of its own: take Nominal(t)"},
		{func() { Typical(Tolerance(q("1 V"), q("2 %"))) }, "cannot call 1 V (voltage) typical: it has limits"},
		{func() { Band(Tolerance(q("1 V"), q("2 %")), q("2 V"), q("3 V")) }, "cannot use 1 V (voltage) as a limit of Band: it has spread of its own: take High(x), Low(x) or Nominal(x)"},
		{func() { Range(q("1 V"), Tolerance(q("2 V"), q("2 %")), q("3 V")) }, "cannot use 2 V (voltage) in Range: it has spread of its own: take High(x), Low(x) or Nominal(x)"},
		{func() { Tolerance(q("1 V"), q("2 %")).Mul(Number(2)) }, "cannot compute with 1 V (voltage), whose limits no study knows: give it a place first: study.Place(key, name, x); Nominal(x) is the value without its limits"},
		{func() { Tolerance(q("1 V"), q("100 ppm/K")) }, "cannot use ± 100 ppm/K (temperature coefficient) on 1 V (voltage): say which temperature it goes with: ± Tempco(100ppm/K, T), where T is the temperature that all parts of the board share"},
		{func() { Tolerance(q("1 kΩ"), q("60 %"), q("40 %")) }, "cannot use ± 100 % on 1 kΩ (resistance): such a part could be zero or negative"},
		{func() { Tempco(q("100 ppm/K"), q("40 K")) }, "cannot use Tempco at 40 K (temperature difference): write Tempco(100ppm/K, T), where T is a point on the temperature scale"},
		{func() { Tempco(q("100 ppm"), q("40 °C")) }, "cannot use 100 ppm (number) as a temperature coefficient: write its limit per kelvin, as in 100ppm/K"},
		{func() { Drift(q("0.2 %")).Mul(Number(2)) }, "cannot compute with the tolerance 0.2 %: it says how a tolerance counts, and stands behind ±"},
		{func() { Normal(Drift(q("0.2 %")), 3) }, "cannot use Normal on 0.2 %: a drift is no matter of chance, so it has no shape"},
		{func() { Drift(Normal(q("0.2 %"), 3)) }, "cannot use Drift on 0.2 %: a drift is no matter of chance, so it has no shape"},
		{func() { Drift(Tolerance(q("1 kΩ"), q("1 %"))) }, "cannot use Drift on 1 kΩ (resistance): it marks a tolerance behind ±, as in 10kΩ ± Drift(1%)"},
		{func() { Normal(Range(q("1 V"), q("2 V"), q("3 V")), 3) }, "cannot use Normal on 2 V (voltage): a Range is no matter of chance: every board meets all of it"},
		{func() { NormalShape(0) }, "cannot use 0 standard deviations: write how many of them the limit stands for, as in 3"},
		{func() { Matched(q("1 kΩ"), q("1 %"), 2) }, "cannot match parts of the exact value 1 kΩ (resistance): give what they have in common first, as in Matched(10kΩ ± 1%, 0.1%, 4)"},
		{func() { Histogram([]Quantity{q("1 V")}, nil) }, "cannot make a Histogram of this table: 1 edges have 0 classes between them, and 0 counts are given"},
		{func() { Histogram([]Quantity{q("2 V"), q("1 V")}, []float64{1}) }, "cannot make a Histogram of this table: the edges stand in rising order"},
		{func() { Histogram([]Quantity{q("1 V"), q("2 V")}, []float64{0}) }, "cannot make a Histogram of this table: the first and the last class hold parts"},
		{func() { Histogram([]Quantity{q("1 V"), q("2 V")}, []float64{-1}) }, "cannot make a Histogram of this table: a count is not negative"},
	} {
		e := refusal(c.f)
		switch {
		case e == nil:
			t.Errorf("not refused: %s", c.want)
		case e.Error() != c.want && !(len(c.want) < 70 && e.Hint == c.want):
			t.Errorf("\n\tsays %s\n\twant %s", e.Error(), c.want)
		}
	}
}
