"""Every value of the note 10-supply-sense, computed from Kirchhoff's and
Ohm's laws and the charging of a capacitor, with exact fractions.

Preferred values are looked up by hand in IEC 60063 (from memory):
  E96 about 1.0: ... 9.31 9.53 9.76 | 10.0 10.2 10.5 ...
  E6: 1.0 1.5 2.2 3.3 4.7 6.8
"""

from table import F, LN2, PI, Table

t = Table({
    "Vsup": ("18", "24", "32"),
    "Vref": ("3.267", "3.3", "3.333"),
    "Rlow": ("9.9e3", "10e3", "10.1e3"),
    "Rup": ("99e3", "100e3", "101e3"),
})


def note(v, margin, s):
    # What the designer typed, in SI units.
    given = "given"
    Vsup = v("Vsup", s["Vsup"], "V", given + ": usual of 18 V, 24 V, 32 V")
    Vsup_high = F("32")
    Vsurge = v("Vsurge", F("60"), "V", given)
    Vref = v("Vref", s["Vref"], "V", given + ": typical of 3.267 V, 3.3 V, 3.333 V")
    bits = v("bits", F("12"), "1", given)
    Ileak = v("Ileak", F("100e-9"), "A", given + ": 100 nA")
    Rswitch = v("Rswitch", F("1e3"), "Ω", given + ": 1 kΩ")
    Csample = v("Csample", F("14e-12"), "F", given + ": 14 pF")
    Tsample = v("Tsample", F("4e-6"), "s", given + ": 4 µs")
    Iclamp = v("Iclamp", F("2e-3"), "A", given + ": 2 mA")

    # The divider.
    Vfull = v("Vfull", F("1.125") * Vsup_high, "V", "1.125 · 32 V = 36 V")
    Rlow = v("Rlow", s["Rlow"], "Ω", given + ": 10 kΩ, nominal of ±1 %")
    ideal = F("10e3") * (Vfull / F("3.3") - 1)  # the choice is made once, of the nominal values
    assert F("97.6e3") < ideal < F("100e3")  # 99.0909... kΩ
    Rup = v("Rup", s["Rup"], "Ω", "10 kΩ · (36 V/3.3 V - 1) = 99.0909 kΩ; E96 has 97.6 and 100 there; not below: 100 kΩ")
    ratio = v("ratio", Rlow / (Rup + Rlow), "1", "10 kΩ/(100 kΩ + 10 kΩ) = 1/11")
    Vnode = v("Vnode", Vsup * ratio, "V", "24 V/11 (current 24 V/110 kΩ through 10 kΩ)")

    # The divider at 32 V.
    v("sense.Ratio", ratio, "1", "voltage divider: 10/110")
    v("sense.Node", Vsup_high / (Rup + Rlow) * Rlow, "V", "current 32 V/110 kΩ through 10 kΩ")
    full = v("sense.FullScale", Vref / Rlow * (Rup + Rlow), "V", "3.3 V over 10 kΩ is 330 µA; times 110 kΩ = 36.3 V")
    v("sense.Headroom", (full - Vsup_high) / Vsup_high, "1", "(36.3 V - 32 V)/32 V")
    step = v("sense.Step", Vref / 4096, "V", "3.3 V/2^12, 2^12 = 4096")
    v("sense.Resolution", full / 4096, "V", "36.3 V/4096")
    source = v("sense.Source", 1 / (1 / Rup + 1 / Rlow), "Ω", "1/(1/100 kΩ + 1/10 kΩ) = 100/11 kΩ")
    pin = v("sense.PinError", Ileak * source, "V", "100 nA · 9.0909 kΩ (Thévenin)")
    inerr = v("sense.InputError", Ileak * Rup, "V", "all leakage flows through the upper resistor at a held node: 100 nA · 100 kΩ = 10 mV")
    assert inerr == pin / ratio
    v("sense.ErrorInSteps", pin / step, "1", "909.09 µV/805.66 µV")
    current = v("sense.Current", Vsup_high / (Rup + Rlow), "A", "32 V/110 kΩ")
    upper_power = v("sense.UpperPower", (current * Rup) ** 2 / Rup, "W", "(290.9 µA · 100 kΩ)²/100 kΩ")
    lower_power = v("sense.LowerPower", (current * Rlow) ** 2 / Rlow, "W", "(290.9 µA · 10 kΩ)²/10 kΩ")
    v("sense.Power", upper_power + lower_power, "W", "sum of both resistors (= 32 V · 290.9 µA)")

    # The capacitor at the node.
    least = 2 * 4096 * Csample
    assert F("100e-9") < least < F("150e-9")  # 114.688 nF
    Cnode = v("Cnode", F("150e-9"), "F", "2 · 4096 · 14 pF = 114.688 nF; E6 has 100 and 150 there; not below: 150 nF")
    tau = v("lowpass.TimeConstant", source * Cnode, "s", "9.0909 kΩ · 150 nF")
    v("lowpass.Corner", 1 / (2 * PI * tau), "Hz", "1/(2π · 1.3636 ms)")
    # e^(-n) = 2^-(12+1), so n = 13 ln 2.
    n = v("lowpass.TimeConstants", 13 * LN2, "1", "e^(-n) = 2^-13: n = 13 ln 2")
    settling = v("lowpass.Settling", n * tau, "s", "9.0109 · 1.3636 ms")

    # Without it.
    dtau = v("direct.TimeConstant", (source + Rswitch) * Csample, "s", "(9.0909 kΩ + 1 kΩ) · 14 pF")
    v("direct.TimeConstants", n, "1", "as above, 13 ln 2")
    dsettling = v("direct.Settling", n * dtau, "s", "9.0109 · 141.27 ns")
    v("direct.Source", source, "Ω", "100 kΩ parallel 10 kΩ")

    # The surge: the clamp holds the node at 3.6 V.
    Vclamp = v("Vclamp", Vref + F("0.3"), "V", "3.3 V + 0.3 V")
    open_voltage = v("surge.OpenVoltage", Vsurge * ratio, "V", "60 V/11 without the clamp")
    assert open_voltage > Vclamp
    v("surge.Node", Vclamp, "V", "5.4545 V is above the clamp's 3.6 V, so it conducts")
    iu = v("surge.UpperCurrent", (Vsurge - Vclamp) / Rup, "A", "(60 V - 3.6 V)/100 kΩ = 564 µA")
    il = v("surge.LowerCurrent", Vclamp / Rlow, "A", "3.6 V/10 kΩ = 360 µA")
    ic = v("surge.Current", iu - il, "A", "Kirchhoff at the node: 564 µA - 360 µA = 204 µA")
    v("surge.ClampPower", ic * Vclamp, "W", "204 µA · 3.6 V")
    v("surge.UpperPower", (Vsurge - Vclamp) ** 2 / Rup, "W", "(56.4 V)²/100 kΩ")

    margin(full - Vsup_high, "V", "full scale above the highest supply: 36.3 V - 32 V")
    margin(F("50e-3") - inerr, "V", "error by leakage below 50 mV: 50 mV - 10 mV")
    margin(F("62.5e-3") - upper_power, "W", "half of 125 mW: 62.5 mW - 8.4628 mW")
    margin(F("100e-3") - settling, "s", "settling within 100 ms: 100 ms - 12.288 ms")
    margin(Tsample - dsettling, "s", "settling within the sampling time: 4 µs - 1.273 µs")
    margin(Iclamp - ic, "A", "current into the protection: 2 mA - 204 µA")


t.run(note)
t.write()
