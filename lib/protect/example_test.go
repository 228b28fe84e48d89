package protect_test

import (
	"fmt"

	"ohmwright/lib/protect"
	"ohmwright/units"
)

// A fuse of UL 248 carries three quarters of what is printed on it.
func ExampleFuse() {
	q := units.MustParse
	f, err := protect.Fuse(protect.FuseInputs{Rated: q("5 A"), Family: "UL 248", Load: q("3 A"), Supply: q("32 V"), Voltage: q("63 V"), Fault: q("40 A"), Breaking: q("50 A")})
	fmt.Println(f.Allowed, f.Margin, err)
	_, err = protect.Fuse(protect.FuseInputs{Rated: q("5 A"), Family: "UL 248", Load: q("4 A"), Supply: q("32 V"), Voltage: q("63 V"), Fault: q("40 A"), Breaking: q("50 A")})
	fmt.Println(err)
	// Output:
	// 3.75 A 750 mA <nil>
	// protect.Fuse: Load is 4 A, 250 mA above what the fuse carries for years at Ambient, 3.75 A: it would blow in operation; raise Rated, or lower Load or Ambient
}

// A bank of ceramic capacitors behind two metres of cable rings to nearly twice
// the supply; an electrolytic capacitor beside it damps that.
func ExampleHotPlug() {
	q := units.MustParse
	in := protect.HotPlugInputs{Supply: q("24 V"), Inductance: q("1.6 µH"), Resistance: q("30 mΩ"), Capacitance: q("10 µF"), Limit: q("40 V")}
	plain, err := protect.HotPlug(in)
	fmt.Println(plain.Peak, plain.Margin, err)
	in.Damping, in.DampingResistance = q("47 µF"), q("0.3 Ω")
	damped, err := protect.HotPlug(in)
	fmt.Println(damped.Peak, damped.Margin, err)
	// Output:
	// 45.33 V −5.331 V <nil>
	// 29.61 V 10.39 V <nil>
}
