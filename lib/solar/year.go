package solar

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// YearInputs are the arguments of Year.
type YearInputs struct {
	Sun     table.Table    // peak sun hours a day, h, or irradiation a day, kWh/m², over the month, 1 to 12
	Panel   units.Quantity // peak power, W
	Kept    units.Quantity // share of the panel's energy that comes into the battery, %
	Load    units.Quantity // average power out of the battery, W
	Battery units.Quantity // energy between the lowest and the highest state of charge, Wh
	Start   units.Quantity // state of charge on 1 January, %; left out: full
}

// Month is what Year finds for one month.
type Month struct {
	Number  units.Quantity // 1 to 12
	Harvest units.Quantity // of the panel, Wh
	Stored  units.Quantity // what comes into the battery or could, Wh
	Load    units.Quantity // wanted by the load, Wh
	Spilled units.Quantity // that the full battery does not take, Wh
	Missing units.Quantity // to the load, Wh
	Level   units.Quantity // state of charge at its end, no unit
	Ratio   units.Quantity // Stored over Load, no unit
}

// YearResult is what Year finds.
type YearResult struct {
	Worst    units.Quantity // month with the least Ratio, 1 to 12
	Ratio    units.Quantity // in it, no unit; below 1: the battery carries the rest
	Lowest   units.Quantity // state of charge at the end of a month, least, no unit
	Missing  units.Quantity // to the load in all the year, Wh; above zero: it fails
	Harvest  units.Quantity // of the panel in all the year, Wh
	Lost     units.Quantity // on the way into the battery, Wh
	Spilled  units.Quantity // that the full battery does not take, Wh
	Load     units.Quantity // wanted in all the year, Wh
	Change   units.Quantity // of what is in the battery, Wh
	Autonomy units.Quantity // of a full battery without sun, s
	Months   []Month
}

// Year computes harvest, load and state of charge of a battery month by month
// through a year of 365 days.
//
//	Harvest = panel · sun · days, of each month
//	Stored  = Harvest · kept
//	Load    = load · days · 24 h
//	Level   = (level before · battery + Stored − Load)/battery, from 0 to 1
//	Spilled = what is above full, Missing = what is below empty
//	Ratio   = Stored/Load
//	Change  = Harvest − Lost − Spilled − Load + Missing, over the year
//
// Arguments: see YearInputs; Sun has the months 1 to 12 and values from 0 to
// 24 h, or as many kWh/m²; Panel, Load and Battery above zero; Kept and Start
// not below zero and not above 100 %. It is an error outside of that. A load
// that is not carried is none: Missing is above zero then. Enlarge the panel by
// 1/Ratio, or the battery where Ratio is below 1 for a short time only.
//
//	y, err := solar.Year(solar.YearInputs{Sun: sun, Panel: 1W, Kept: 50%, Load: 30mW, Battery: 1.8Wh})
//
// Holds for what is alike through each month. All energy goes through the
// battery, which is the safe side.
//
// Source: energy balance; peak sun hours are the day's irradiation over
// 1 kW/m², the irradiance of standard test conditions (IEC 60904-3).
//
// Caution: monthly means hide dark weeks: size the battery with Battery too. A
// lithium battery must not be charged below 0 °C, when the winter sun shines.
func Year(in YearInputs) (YearResult, error) {
	const function = "solar.Year"
	zero, one := units.Number(0), units.Number(1)
	start := in.Start
	if !argument.Given(start) {
		start = one
	}
	if err := argument.First(function,
		argument.Power.Positive("Panel", in.Panel),
		argument.Share.Positive("Kept", in.Kept),
		argument.AtMost("Kept", in.Kept, "all of it", one, "write the share that comes into the battery"),
		argument.Power.Positive("Load", in.Load),
		argument.BatteryEnergy.Positive("Battery", in.Battery),
		argument.Share.NotNegative("Start", start),
		argument.AtMost("Start", start, "full", one, "write a state of charge"),
	); err != nil {
		return YearResult{}, err
	}
	sun, err := sunHours(in.Sun)
	if err != nil {
		return YearResult{}, argument.First(function, err)
	}
	day, nothing := units.MustParse("24 h"), argument.BatteryEnergy.OrZero(none)
	result := YearResult{Worst: zero, Lowest: one, Missing: nothing, Harvest: nothing, Lost: nothing, Spilled: nothing, Load: nothing, Months: make([]Month, 12)}
	inside := start.Mul(in.Battery)
	first := inside
	for i, days := range [12]float64{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31} {
		length := units.Number(days)
		harvest := in.Panel.Mul(sun[i]).Mul(length)
		stored := harvest.Mul(in.Kept)
		load := in.Load.Mul(day).Mul(length)
		then := inside.Add(stored).Sub(load)
		spilled := units.Max(then.Sub(in.Battery), nothing)
		missing := units.Max(then.Neg(), nothing)
		inside = units.Max(units.Min(then, in.Battery), nothing)
		level := inside.Div(in.Battery)
		ratio := stored.Div(load)
		number := units.Number(float64(i + 1))
		if i == 0 {
			result.Ratio, result.Worst = ratio, number
		} else {
			result.Worst = units.Where(ratio, result.Ratio, number, result.Worst)
			result.Ratio = units.Min(ratio, result.Ratio)
		}
		result.Lowest = units.Min(result.Lowest, level)
		result.Missing = result.Missing.Add(missing)
		result.Harvest = result.Harvest.Add(harvest)
		result.Lost = result.Lost.Add(harvest.Sub(stored))
		result.Spilled = result.Spilled.Add(spilled)
		result.Load = result.Load.Add(load)
		result.Months[i] = Month{
			Number: number, Harvest: units.In(harvest, "Wh"), Stored: units.In(stored, "Wh"), Load: units.In(load, "Wh"),
			Spilled: units.In(spilled, "Wh"), Missing: units.In(missing, "Wh"), Level: level, Ratio: ratio,
		}
	}
	result.Change = units.In(inside.Sub(first), "Wh")
	result.Autonomy = units.In(in.Battery.Div(in.Load), "d")
	return result, nil
}

// sunHours reads the peak sun hours of each month.
func sunHours(sun table.Table) ([]units.Quantity, error) {
	standard := units.Number(1)
	if sun.Expect("Sun", "1", "kWh/m²") == nil {
		standard = units.MustParse("1 kW/m²")
	} else if err := sun.Expect("Sun", "1", "h"); err != nil {
		return nil, err
	}
	hours := make([]units.Quantity, 12)
	for i := range hours {
		value, err := sun.At(units.Number(float64(i + 1)))
		if err != nil {
			return nil, err
		}
		hours[i] = value.Div(standard)
		name := fmt.Sprintf("Sun in month %d", i+1)
		if err := argument.Time.NotNegative(name, hours[i]); err != nil {
			return nil, err
		}
		if err := argument.AtMost(name, hours[i], "the whole day", units.MustParse("24 h"), "write the sum of one day, not of the month"); err != nil {
			return nil, err
		}
	}
	return hours, nil
}
