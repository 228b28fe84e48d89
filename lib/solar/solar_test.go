package solar

import (
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"
)

const sunText = "month [1], sun [h]\n1, 0.9\n2, 1.6\n3, 2.8\n4, 4.1\n5, 5\n6, 5.2\n7, 5.1\n8, 4.4\n9, 3.2\n10, 1.9\n11, 1.1\n12, 0.7"

func TestPublished(t *testing.T) {
	t.Parallel()
	// Check 08-10: 1000 Wh a day, 5 sun hours, 0.7: 285.7 W; the form at
	// https://www.simplisolar.org/education/, numbers ours.
	expect.Within(t, "panel", expect.Result[units.Quantity](t)(Panel(q("1000 Wh"), q("5 h"), q("70 %"))), "285.714 W", "1 mW")
	// There too: capacity = energy · days/(voltage · depth · cable). By hand:
	// 1000 Wh · 3/(12 V · 0.5 · 0.95) = 526.316 Ah.
	b := expect.Result[BatteryResult](t)(Battery(BatteryInputs{Daily: q("1000 Wh"), Days: q("3"), Depth: q("50 %"), Kept: q("95 %"), Voltage: q("12 V")}))
	expect.Within(t, "capacity", b.Capacity, "526.316 Ah", "1 mAh")
	// Cold leaves 80 %: 526.316/0.8.
	b = expect.Result[BatteryResult](t)(Battery(BatteryInputs{Daily: q("1000 Wh"), Days: q("3"), Depth: q("50 %"), Kept: q("95 %"), Cold: q("80 %"), Voltage: q("12 V")}))
	expect.Within(t, "capacity when cold", b.Capacity, "657.895 Ah", "1 mAh")
}

// The panel that Panel finds for the worst month just carries it.
func TestPanelCarriesTheWorstMonth(t *testing.T) {
	t.Parallel()
	p := expect.Result[units.Quantity](t)(Panel(q("0.72 Wh"), q("0.7 h"), q("50 %")))
	y := expect.Result[YearResult](t)(Year(YearInputs{Sun: expect.Table(sunText), Panel: p, Kept: q("50 %"), Load: q("30 mW"), Battery: q("2 Wh")}))
	expect.Within(t, "ratio", y.Ratio, "1", "1e-12")
	expect.Within(t, "worst month", y.Worst, "12", "0")
	expect.Within(t, "missing", y.Missing, "0 Wh", "1 nWh")
	expect.Within(t, "autonomy", y.Autonomy, "66.6667 h", "1 s")
	// Irradiation in kWh/m² is the same.
	same := expect.Table("month [1], sun [kWh/m²]\n1, 0.9\n2, 1.6\n3, 2.8\n4, 4.1\n5, 5\n6, 5.2\n7, 5.1\n8, 4.4\n9, 3.2\n10, 1.9\n11, 1.1\n12, 0.7")
	z := expect.Result[YearResult](t)(Year(YearInputs{Sun: same, Panel: p, Kept: q("50 %"), Load: q("30 mW"), Battery: q("2 Wh")}))
	expect.Within(t, "harvest", z.Harvest, y.Harvest.Text(12), "1 nWh")
}

// A year stepped through by the hour: the sun shines evenly on each month.
func TestYearAgainstHours(t *testing.T) {
	t.Parallel()
	sun := []float64{0.9, 1.6, 2.8, 4.1, 5, 5.2, 5.1, 4.4, 3.2, 1.9, 1.1, 0.7}
	days := []int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	for _, panel := range []float64{0.3, 0.8, 2.5} {
		for _, battery := range []float64{0.5, 5, 200} {
			for _, start := range []float64{0, 0.5, 1} {
				const kept, load = 0.55, 0.03
				y := expect.Result[YearResult](t)(Year(YearInputs{Sun: expect.Table(sunText), Panel: of(panel, "W"), Kept: of(kept, "1"), Load: of(load, "W"), Battery: of(battery, "Wh"), Start: of(start, "1")}))
				inside, harvest, spilled, missing, lowest := start*battery, 0.0, 0.0, 0.0, 1.0
				for m := range sun {
					for range days[m] * 24 {
						got := panel * sun[m] / 24
						harvest += got
						inside += kept*got - load
						if inside > battery {
							spilled += inside - battery
							inside = battery
						}
						if inside < 0 {
							missing -= inside
							inside = 0
						}
					}
					lowest = min(lowest, inside/battery)
					if d := y.Months[m].Level.SI() - inside/battery; math.Abs(d) > 1e-9 {
						t.Errorf("%v W, %v Wh: at the end of month %d %v, by the hour %v", panel, battery, m+1, y.Months[m].Level, inside/battery)
					}
				}
				wh := 3600.0
				for _, c := range []struct {
					name      string
					got, want float64
				}{
					{"harvest", y.Harvest.SI() / wh, harvest}, {"spilled", y.Spilled.SI() / wh, spilled}, {"missing", y.Missing.SI() / wh, missing},
					{"lowest", y.Lowest.SI(), lowest}, {"change", y.Change.SI() / wh, inside - start*battery},
					// Nothing comes from nowhere.
					{"change by balance", y.Change.SI() / wh, (y.Harvest.SI() - y.Lost.SI() - y.Spilled.SI() - y.Load.SI() + y.Missing.SI()) / wh},
				} {
					if math.Abs(c.got-c.want) > 1e-8 {
						t.Errorf("%v W, %v Wh from %v: %s is %v, by the hour %v", panel, battery, start, c.name, c.got, c.want)
					}
				}
			}
		}
	}
}

// More panel or more battery never misses more.
func TestYearMonotone(t *testing.T) {
	t.Parallel()
	missing := func(panel, battery string) float64 {
		return expect.Result[YearResult](t)(Year(YearInputs{Sun: expect.Table(sunText), Panel: q(panel), Kept: q("50 %"), Load: q("30 mW"), Battery: q(battery)})).Missing.SI()
	}
	if !(missing("1 W", "2 Wh") < missing("0.5 W", "2 Wh")) || !(missing("1 W", "4 Wh") < missing("1 W", "2 Wh")) {
		t.Error("a larger panel or battery misses more")
	}
}

func TestEveryCaseIsComputedByItself(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name   string
		values []string
		call   func(x []units.Quantity) (any, error)
	}{
		{"Panel", []string{"1 Wh", "2 h", "50 %"}, func(x []units.Quantity) (any, error) { return box(Panel(x[0], x[1], x[2])) }},
		{"Battery", []string{"1 Wh", "5", "50 %", "80 %"}, func(x []units.Quantity) (any, error) {
			return box(Battery(BatteryInputs{Daily: x[0], Days: x[1], Depth: x[2], Kept: x[3], Cold: x[3], Voltage: q("3.6 V")}))
		}},
		// In some cases it lacks, in others it is full.
		{"Year", []string{"1 W", "50 %", "20 mW", "4 Wh", "60 %"}, func(x []units.Quantity) (any, error) {
			return box(Year(YearInputs{Sun: expect.Table(sunText), Panel: x[0], Kept: x[1], Load: x[2], Battery: x[3], Start: x[4]}))
		}},
	} {
		expect.SpreadOfAll(t, test.name, test.values, test.call)
	}
}
