// Package argument holds the checks that the packages of lib make on what
// they are given, so that every message has the same form: the argument, its
// value, the limit, and what to write instead.
//
//	divider.Plain: lower is 0 Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ
//
// A check compares quantities; it never reads a number out of one. Where a
// value has spread, its nominal decides.
//
// Every check also keeps a number between 1e-30 and 1e30 of its coherent
// unit, so that no formula of lib, which all are products and sums of few
// factors, can leave the range of float64.
package argument

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"ohmwright/units"
)

// Kind is what an argument may be: a resistance, a voltage and so on.
type Kind struct {
	name    string // "resistance", "capacity of a battery"
	symbol  string // "Ω"
	example string // "10 kΩ"
	one     units.Quantity
}

func kind(name, symbol, example string) Kind {
	return Kind{name: name, symbol: symbol, example: example, one: units.MustParse("1 " + symbol)}
}

// an is the name of the kind with its article.
func (k Kind) an() string {
	if strings.ContainsRune("aeiou", rune(k.name[0])) {
		return "an " + k.name
	}
	return "a " + k.name
}

// its is the name of the kind behind "its": of a "capacity of a battery" the
// "capacity".
func (k Kind) its() string {
	name, _, _ := strings.Cut(k.name, " of ")
	name, _, _ = strings.Cut(name, " in ")
	return "its " + name
}

// The kinds that lib uses. An energy of a battery is one that is written in
// Wh.
var (
	Voltage           = kind("voltage", "V", "3.3 V")
	Current           = kind("current", "A", "1 mA")
	Resistance        = kind("resistance", "Ω", "10 kΩ")
	Capacitance       = kind("capacitance", "F", "100 nF")
	Charge            = kind("charge", "C", "5 nC")
	Energy            = kind("energy", "J", "1 mJ")
	JouleIntegral     = kind("Joule integral", "A²·s", "2 A²·s")
	VoltageSlope      = kind("slope of a voltage", "V/s", "1 V/ms")
	Tempco            = kind("temperature coefficient", "1/K", "0.1 %/K")
	Difference        = kind("difference of temperatures", "K", "40 K")
	Number            = kind("number", "1", "100")
	Capacity          = kind("capacity of a battery", "Ah", "500 mAh")
	BatteryEnergy     = kind("energy", "Wh", "10 Wh")
	Transconductance  = kind("transconductance", "S", "350 µA/V")
	Power             = kind("power", "W", "500 mW")
	Time              = kind("time", "s", "10 µs")
	ThermalResistance = kind("thermal resistance", "K/W", "62 K/W")
	Slope             = kind("power per kelvin", "W/K", "5 mW/K")
	Inductance        = kind("inductance", "H", "10 µH")
	Frequency         = kind("frequency", "Hz", "100 kHz")
	Angle             = kind("angle", "°", "60°")
	CurrentSlope      = kind("current slope", "A/s", "0.2 A/µs")
	Share             = kind("share", "%", "60 %")
	Gain              = kind("ratio in decibels", "dB", "60 dB")
	Length            = kind("length", "m", "10 mm")
	Surface           = kind("surface area", "m²", "1 cm²")
	Pressure          = kind("pressure", "Pa", "101.3 kPa")
	HeatCapacity      = kind("heat capacity", "J/K", "5 mJ/K")
	Conductivity      = kind("thermal conductivity", "W/(m·K)", "385 W/m/K")
	HeatTransfer      = kind("heat transfer coefficient", "W/(m²·K)", "10 W/m²/K")
)

var (
	point        = units.MustParse("25 °C")
	absoluteZero = units.MustParse("-273.15 °C")
)

// Given reports whether x was given at all: an unset field and the bare
// constant 0 are not.
func Given(x units.Quantity) bool {
	var unset units.Quantity
	return x != unset
}

// Positive checks that x is of kind k and above zero.
func (k Kind) Positive(name string, x units.Quantity) error {
	if err := k.given(name, x); err != nil {
		return err
	}
	if at := Below(x, k.none(), x); at != nil {
		return fmt.Errorf("%s is %s; it must be above 0 %s: check its sign and the formula it comes from", name, at[0], k.symbol)
	}
	if at := NotAbove(x, k.none(), x); at != nil {
		return fmt.Errorf("%s is %s; it must be above 0 %s: write %s, such as %s", name, at[0], k.symbol, k.its(), k.example)
	}
	return k.bounded(name, x)
}

// NotNegative checks that x is of kind k and not below zero.
func (k Kind) NotNegative(name string, x units.Quantity) error {
	if err := k.given(name, x); err != nil {
		return err
	}
	if at := Below(x, k.none(), x); at != nil {
		return fmt.Errorf("%s is %s; it must not be below 0 %s: check its sign and the formula it comes from", name, at[0], k.symbol)
	}
	return k.bounded(name, x)
}

// Signed checks that x is of kind k, of either sign or zero.
func (k Kind) Signed(name string, x units.Quantity) error {
	if err := k.given(name, x); err != nil {
		return err
	}
	return k.bounded(name, x)
}

// Optional checks that x is not given, or is of kind k and above zero.
func (k Kind) Optional(name string, x units.Quantity) error {
	if !Given(x) {
		return nil
	}
	return k.Positive(name, x)
}

// OrZero returns x, and zero of kind k where x is not given, so that formulas
// need no case for what was left out.
func (k Kind) OrZero(x units.Quantity) units.Quantity {
	if Given(x) {
		return x
	}
	return k.none()
}

// Unset checks that x is not given, because the function finds it.
func Unset(name string, x units.Quantity, mend string) error {
	if !Given(x) {
		return nil
	}
	return fmt.Errorf("%s is %v, but this function finds it: %s", name, x, mend)
}

func (k Kind) none() units.Quantity { return k.one.Sub(k.one) }

func (k Kind) given(name string, x units.Quantity) error {
	if !Given(x) {
		return fmt.Errorf("%s is not given, or is the bare number 0: write %s, such as %s", name, k.its(), k.example)
	}
	// The coherent unit also tells Ω from Ω/sq, which have one dimension.
	if x.Dim() != k.one.Dim() || x.SIUnit() != k.one.SIUnit() {
		return fmt.Errorf("%s is %v; it must be %s: write it in %s, such as %s", name, x, k.an(), k.symbol, k.example)
	}
	return nil
}

// bounded refuses infinities, not-a-numbers (which are not less than
// anything) and sizes with which a product could leave float64.
func (k Kind) bounded(name string, x units.Quantity) error {
	most, least, size := k.one.Mul(units.Number(1e30)), k.one.Mul(units.Number(1e-30)), units.Abs(x)
	if !x.HasSpread() && (least.Less(size) && size.Less(most) || size.Equal(k.none())) {
		return nil
	}
	if where, _, ok := units.Everywhere(func(v []float64) bool { return v[0] == v[0] }, x); !ok {
		return fmt.Errorf("%s: check the formula it comes from", strings.TrimSpace(name+" is not a number "+where))
	}
	at := somewhere(func(v []float64) bool {
		return v[0] != 0 && !(1e-30*v[1] < math.Abs(v[0]) && math.Abs(v[0]) < 1e30*v[1])
	}, x, k.one, x)
	if at != nil {
		return fmt.Errorf("%s is %s; its size must be between 1e-30 %s and 1e30 %s: check its prefix and the formula it comes from", name, at[0], k.symbol, k.symbol)
	}
	return nil
}

// NotAbove looks for a case in which x is not above floor. It gives what shown
// are in it, for a message, and behind the first of them says which case it
// is: "−1 V where Voff is −1 V"; nil if x is above floor in every case.
func NotAbove(x, floor units.Quantity, shown ...units.Quantity) []string {
	if !x.HasSpread() && !floor.HasSpread() && floor.Less(x) {
		return nil
	}
	return somewhere(func(v []float64) bool { return !(v[1] < v[0]) }, x, floor, shown...)
}

// Below looks, likewise, for a case in which x is below floor.
func Below(x, floor units.Quantity, shown ...units.Quantity) []string {
	if !x.HasSpread() && !floor.HasSpread() && !x.Less(floor) {
		return nil
	}
	return somewhere(func(v []float64) bool { return v[0] < v[1] }, x, floor, shown...)
}

// somewhere looks for a case in which something bad is so of x and y. Exact
// values do not come here while all is well: that is the way they pass most.
func somewhere(bad func(v []float64) bool, x, y units.Quantity, shown ...units.Quantity) []string {
	where, at, ok := units.Everywhere(func(v []float64) bool { return !bad(v) }, append([]units.Quantity{x, y}, shown...)...)
	if ok {
		return nil
	}
	var texts []string
	for i, q := range at[2:] {
		texts = append(texts, q.String())
		if i == 0 && where != "" {
			texts[0] += " " + where
		}
	}
	return texts
}

// Temperature checks that t is a point on the temperature scale, above
// absolute zero.
func Temperature(name string, t units.Quantity) error {
	if !Given(t) {
		return fmt.Errorf("%s is not given, or is the bare number 0: write a temperature, such as 25 °C", name)
	}
	if t.Dim() != point.Dim() {
		return fmt.Errorf("%s is %v; it must be a temperature on the scale, not a difference: write it in °C, such as 25 °C", name, t)
	}
	if at := NotAbove(t, absoluteZero, t); at != nil {
		return fmt.Errorf("%s is %s; it must be above absolute zero, −273.15 °C: check its sign and the formula it comes from", name, at[0])
	}
	if at := somewhere(func(v []float64) bool { return !(v[0] < 1e30) }, t, absoluteZero, t); at != nil {
		return fmt.Errorf("%s is %s; it must be below 1e30 K: check the formula it comes from", name, at[0])
	}
	return nil
}

// Size checks that x, of any dimension, is a plain quantity that is not below
// zero.
func Size(name string, x units.Quantity) error {
	if x.Dim().Kind() != units.PlainScale {
		return fmt.Errorf("%s is %v; it must be a plain quantity: a temperature or a level has no share", name, x)
	}
	symbol := x.SIUnit()
	if symbol == "1" {
		symbol = ""
	}
	one, err := units.Parse("1 " + symbol)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return Kind{name: "value", symbol: symbol, example: one.String(), one: one}.NotNegative(name, x)
}

// Above checks that x is above floor, which is called floorName; mend says
// what to do otherwise.
func Above(name string, x units.Quantity, floorName string, floor units.Quantity, mend string) error {
	return compared(name, x, "be above", floorName, floor, mend, NotAbove)
}

// AtLeast checks, likewise, that x is not below floor.
func AtLeast(name string, x units.Quantity, floorName string, floor units.Quantity, mend string) error {
	return compared(name, x, "not be below", floorName, floor, mend, Below)
}

// AtMost checks, likewise, that x is not above ceiling.
func AtMost(name string, x units.Quantity, ceilingName string, ceiling units.Quantity, mend string) error {
	return compared(name, x, "not be above", ceilingName, ceiling, mend, exchanged(Below))
}

// Under checks, likewise, that x is below ceiling.
func Under(name string, x units.Quantity, ceilingName string, ceiling units.Quantity, mend string) error {
	return compared(name, x, "be below", ceilingName, ceiling, mend, exchanged(NotAbove))
}

// search looks for a case in which x and y are not as they must be.
type search func(x, y units.Quantity, shown ...units.Quantity) []string

func exchanged(s search) search {
	return func(x, y units.Quantity, shown ...units.Quantity) []string { return s(y, x, shown...) }
}

// compared refuses two that cannot be compared, too: in a list of checks, all
// of which are made before First looks at one, it may stand behind the check
// of their kinds, which then has the word.
func compared(name string, x units.Quantity, must, limitName string, limit units.Quantity, mend string, broken search) error {
	if x.Dim() != limit.Dim() || x.SIUnit() != limit.SIUnit() {
		return fmt.Errorf("%s is %v; it must %s %s, %v, which is of another kind: %s", name, x, must, limitName, limit, mend)
	}
	at := broken(x, limit, x, limit)
	if at == nil {
		return nil
	}
	return fmt.Errorf("%s is %s; it must %s %s, %s: %s", name, at[0], must, limitName, at[1], mend)
}

// Count checks that n lies from least to most; mend says what to write.
func Count(name string, n, least, most int, mend string) error {
	if least <= n && n <= most {
		return nil
	}
	return fmt.Errorf("%s is %d; it must be from %d to %d: %s", name, n, least, most, mend)
}

// First returns the first of errs that is one, with the function's name in
// front, or nil.
func First(function string, errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return fmt.Errorf("%s: %w", function, err)
		}
	}
	return nil
}

// Within puts a function's name in place of that of the one which it called,
// and which err, made by First, comes from; nil stays nil.
func Within(function string, err error) error {
	return First(function, errors.Unwrap(err))
}
