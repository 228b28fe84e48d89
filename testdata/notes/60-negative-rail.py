"""Every value of the note 60-negative-rail, computed from the straight ramps of
an inductor's current, the charge of capacitors and Kirchhoff's and Ohm's laws,
with 40 decimal digits.

The duty at which the drops balance is found by repeating: a current makes the
drops, the drops the shares of the period, the shares the current.

Preferred values are looked up by hand in IEC 60063 (from memory):
  E6: 1.0 1.5 2.2 3.3 4.7 6.8

Every value is at its extremes at corners of its sources.
"""

from decimal import Decimal as D
from math import pi as rough_pi

from table import F, PI, Table

ZERO, ONE, HALF = D(0), D(1), D("0.5")
pi = D(PI.numerator) / D(PI.denominator)
assert abs(float(pi) - rough_pi) < 1e-15

t = Table({
    "Vin": ("18", "24", "32"),
    "Vout": ("-5.15", "-5", "-4.85"),
    "Iout": ("0.006", "0.03", "0.08"),
    "Ta": ("-20", "25", "60"),
    "fsw": ("450e3", "500e3", "550e3"),
    "L": ("120e-6", "150e-6", "180e-6"),
    "Ilim": ("0.55", "0.75", "0.95"),
    "Cout": ("26.4e-6", "33e-6", "39.6e-6"),
    "Cin": ("1.6e-6", "2e-6", "2.4e-6"),
    "fv": ("270e3", "300e3", "330e3"),
    "Lv": ("17.6e-6", "22e-6", "26.4e-6"),
    "Ccoup": ("8e-6", "10e-6", "12e-6"),
})


def dec(x):
    return D(x.numerator) / D(x.denominator)


def trapezoid(a, b):
    """Mean square of what goes straight from a to b."""
    return (a * a + a * b + b * b) / 3


balances = {}


def balance(load, rise, fall):
    """Current, voltages with the switch on and off, and share of the on-time.
    rise and fall give both voltages of a current and the shares."""
    off = HALF
    for _ in range(400):
        current = load / off
        up, down = rise(current, 1 - off), fall(current, off)
        new = up / (up + down)
        if abs(new - off) < D("1e-37"):
            break
        off = new
    return current, up, down, down / (up + down)


def wave(load, up, down, share, inductance, T):
    """Both ends of the current of switch and diode, and the times of both."""
    rise, fall = up / inductance, down / inductance
    full = rise * share * T
    mean = load / (1 - share)
    if mean >= full / 2:
        return mean - full / 2, mean + full / 2, share * T, T - share * T
    # load · T = high · high/fall/2: the diode's triangle.
    high = (2 * load * T * fall).sqrt()
    return ZERO, high, high / rise, high / fall


def pulsed(low, high, time, T, slope):
    """Average, mean square and that without the average of a ramp of a part of
    the period, and the charge by which it is above the average."""
    average = (low + high) / 2 * time / T
    square = trapezoid(low, high) * time / T
    if low >= average:
        charge = ((low + high) / 2 - average) * time
    else:
        charge = (high - average) ** 2 / slope / 2
    return average, square, square - average * average, charge


def note(line, margin, at):
    s = {name: dec(x) for name, x in at.items()}
    zero_celsius = D("273.15")

    def v(name, x, unit, how):
        line(name, F(x), unit, how)
        return x

    def m(x, unit, how):
        margin(F(x), unit, how)

    given = "given"
    Vin = v("Vin", s["Vin"], "V", given + ": usual of 18 V, 24 V, 32 V")
    Vout = v("Vout", s["Vout"], "V", given + ": -5 V, nominal of ±3 %")
    V = -Vout
    Iout = v("Iout", s["Iout"], "A", given + ": usual of 6 mA, 30 mA, 80 mA")
    Ifull = D("0.08")
    Ta = v("Ta", s["Ta"] + zero_celsius, "K", "25 °C + 273.15 K, usual of -20 °C, 25 °C, 60 °C")
    f = v("fsw", s["fsw"], "Hz", given + ": 500 kHz, nominal of ±10 %")
    T = 1 / f
    Rsw = v("Rsw", D("0.9"), "Ω", given)
    Vd = v("Vd", D("0.45"), "V", given)
    theta = v("θJA", D(90), "K/W", given + ": a degree of difference is a kelvin")

    def stage(name, fields):
        for field, (x, unit) in fields.items():
            v(name + "." + field, x, unit, "as above" if unit != "1" else "not given")

    # What the part stands.
    none = (ZERO, "1")
    stage("base", {"Input": (Vin, "V"), "Output": (Vout, "V"), "Load": (Iout, "A"), "Frequency": (f, "Hz"), "Inductance": none, "Switch": (Rsw, "Ω"),
                   "Rectifier": none, "Diode": (Vd, "V"), "Winding": none, "Second": none, "SecondWinding": none, "Efficiency": none})
    Vring = v("Vring", D(5), "V", given)
    v("spare", 36 - V - Vd - Vring, "V", "36 V less 5 V, 0.45 V and 5 V")
    open_ = v("stress.Switch", Vin + V + Vd + Vring, "V", "24 V + 5 V + 0.45 V + 5 V")
    v("stress.Rectifier", Vin + V + Vring, "V", "24 V + 5 V + 5 V")
    v("stress.Regulator", Vin + V, "V", "24 V + 5 V")
    left = v("stress.Margin", 60 - open_, "V", "60 V - 34.45 V")
    v("stress.MostInput", 60 - V - Vd - Vring, "V", "60 V less 5 V, 0.45 V and 5 V")
    m(left - 10, "V", "25.55 V - 10 V")

    # The inductor, at full load.
    Rwind = v("Rwind", D("0.35"), "Ω", given)

    def settled(load):
        return balance(load, lambda I, on: Vin - I * (Rsw + Rwind), lambda I, off: V + Vd + I * Rwind)

    I, up, down, share = settled(Ifull)
    v("ideal.Duty", share, "1", "off 5.484 V, on 23.88 V: both times balance")
    v("ideal.Current", I, "A", "80 mA in 81.3 % of the time")
    wanted = v("ideal.Ripple", D("0.8") * I, "A", "80 % of that")
    t_on = v("ideal.OnTime", share * T, "s", "18.7 % of 2 µs")
    v("ideal.OnVoltage", up, "V", "24 V - 98.4 mA · 1.25 Ω")
    v("ideal.Inductance", up * t_on / wanted, "H", "23.88 V · 373.6 ns/78.7 mA")
    # At 32 V, 450 kHz and -5.15 V it is 141.3 µH.
    L = v("L", s["L"], "H", "141.3 µH at its largest; E6 has 100 and 150 there, the nearer is 150; nominal of ±20 %")

    # Currents.
    I, up, down, share = settled(Iout)
    rise, fall = up / L, down / L
    low, high, t_on, t_off = wave(Iout, up, down, share, L, T)
    v("i.OnSlope", rise, "A/s", "(24 V - 36.8 mA · 1.25 Ω)/150 µH")
    v("i.OffSlope", fall, "A/s", "(5.45 V + 36.8 mA · 0.35 Ω)/150 µH")
    v("i.Duty", share, "1", "5.463/(5.463 + 23.95)")
    full = v("i.FullRipple", rise * share * T, "A", "159.7 kA/s · 371.4 ns")
    v("i.Boundary", full / 2 * (1 - share), "A", "what a triangle of that height gives in the off-time")
    v("i.Conduction", (t_on + t_off) / T, "1", "30 mA is above the boundary: all of the period")
    v("i.OnShare", t_on / T, "1", "371.4 ns of 2 µs")
    v("i.OffShare", t_off / T, "1", "the rest")
    v("i.OnTime", t_on, "s", "59.3 mA at 159.7 kA/s")
    v("i.Ripple", high - low, "A", "from valley to peak")
    v("i.Mean", (low + high) / 2, "A", "half way from valley to peak")
    v("i.Peak", high, "A", "36.84 mA + 29.66 mA")
    v("i.Valley", low, "A", "36.84 mA - 29.66 mA")
    square = trapezoid(low, high)
    v("i.RMS", (square * (t_on + t_off) / T).sqrt(), "A", "mean square of both ramps: (a² + ab + b²)/3")
    in_average, in_square, in_rest, in_charge = pulsed(low, high, t_on, T, rise)
    out_average, out_square, out_rest, out_charge = pulsed(low, high, t_off, T, fall)
    v("i.SwitchAverage", in_average, "A", "36.84 mA for 371.4 ns of 2 µs")
    v("i.SwitchRMS", in_square.sqrt(), "A", "mean square of the rising ramp over the period")
    v("i.RectifierAverage", out_average, "A", "36.84 mA for the rest")
    v("i.RectifierRMS", out_square.sqrt(), "A", "mean square of the falling ramp over the period")
    v("i.OutputCapacitorRMS", out_rest.sqrt(), "A", "what is left of the square without the load's")
    v("i.InputCapacitorRMS", in_rest.sqrt(), "A", "what is left of the switch's square without the average's")

    # Limits.
    Ilim = v("Ilim", s["Ilim"], "A", given + ": typical of 0.55 A, 0.75 A, 0.95 A")
    Isat = D("1.1")
    v("limit.Peak", high, "A", "as above")
    m1 = v("limit.PeakMargin", Ilim - high, "A", "750 mA - 66.5 mA")
    # The mean whose peak is the limit, by repeating; its drops are larger.
    most_mean = Ilim
    for _ in range(400):
        up_limit, down_limit = Vin - most_mean * (Rsw + Rwind), V + Vd + most_mean * Rwind
        new = Ilim - up_limit * down_limit / (up_limit + down_limit) / L / f / 2
        if abs(new - most_mean) < D("1e-37"):
            break
        most_mean = new
    v("limit.MostMean", most_mean, "A", "750 mA less half the ripple that 23.1 V and 5.7 V make")
    v("limit.MostLoad", most_mean * up_limit / (up_limit + down_limit), "A", "that in 80.2 % of the time")
    over = v("limit.Overrun", Vin / L * D("100e-9"), "A", "24 V/150 µH for 100 ns")
    v("limit.LargestPeak", Ilim + over, "A", "750 mA + 16 mA")
    m2 = v("limit.SaturationMargin", Isat - Ilim - over, "A", "1.1 A - 766 mA")
    v("limit.SaturationShare", m2 / Isat, "1", "of 1.1 A")
    ton, most = D("100e-9"), D("0.9")
    v("times.Duty", share, "1", "as above")
    v("times.OnTime", share * T, "s", "as above")
    v("times.OnMargin", share * T - ton, "s", "371.4 ns - 100 ns")
    v("times.OffTime", T - share * T, "s", "2 µs - 371.4 ns")
    v("times.OffMargin", T - share * T, "s", "no shortest off-time is given")
    v("times.MostDuty", most, "1", given)
    v("times.DutyMargin", most - share, "1", "90 % - 18.6 %")

    def input_at(d):
        """(Vin - I · 1.25 Ω) · d = (V + Vd + I · 0.35 Ω) · (1 - d)."""
        I = Iout / (1 - d)
        return (V + Vd + I * Rwind) * (1 - d) / d + I * (Rsw + Rwind)

    v("times.LeastInput", input_at(most), "V", "(5.45 V + 0.3 A · 0.35 Ω)/9 + 0.3 A · 1.25 Ω")
    v("times.MostInput", input_at(ton / T), "V", "19 · (5.45 V + 31.6 mA · 0.35 Ω) + 31.6 mA · 1.25 Ω")
    v("times.LightOn", t_on, "s", "as above")
    light = v("times.LightSpare", t_on - ton, "s", "371.4 ns - 100 ns")
    m(m1 - D("0.3"), "A", "683.5 mA - 300 mA")
    m(m2, "A", "as above")
    m(light, "s", "as above")

    # Output capacitor and loop, at full load.
    fc = v("fc", D("10e3"), "Hz", given)
    I, up_full, down_full, share_full = settled(Ifull)
    R = v("zero.LoadResistance", V / Ifull, "Ω", "5 V/80 mA")
    zero = up_full / (2 * pi * L * I)
    for name in ("Above", "Below", "Zero"):
        v("zero." + name, zero, "Hz", "23.88 V/(2π · 150 µH · 98.4 mA)")
    of_zero = v("zero.OfZero", zero / 5, "Hz", "a fifth of that")
    of_frequency = v("zero.OfFrequency", f / 10, "Hz", "a tenth of 500 kHz")
    crossover = v("zero.Crossover", min(of_zero, of_frequency), "Hz", "the lower of both")
    low_f, high_f, on_f, off_f = wave(Ifull, up_full, down_full, share_full, L, T)
    _, _, rest_f, _ = pulsed(low_f, high_f, off_f, T, down_full / L)
    step = D("0.06")
    before = settled(Ifull - step)[0]
    slow = step / (2 * pi * fc)
    under = Ifull * L * (I - before) / up_full
    over_charge = L * (I - Ifull + step) ** 2 / (2 * down_full)
    v("need.Crossover", fc, "Hz", given)
    for_under = v("need.ForUndershoot", max(slow, under) / D("0.05"), "F", "60 mA/(2π · 10 kHz), which is more than 37 nC, over 50 mV")
    for_over = v("need.ForOvershoot", max(slow, over_charge) / D("0.05"), "F", "60 mA/(2π · 10 kHz), which is more than 84 nC, over 50 mV")
    needed = v("need.Capacitance", max(for_under, for_over), "F", "the larger of both")
    v("need.ESR", D("0.05") / step, "Ω", "50 mV/60 mA")
    Cout = v("Cout", s["Cout"], "F", given + ": 33 µF, nominal of ±20 %")
    esr = D("3e-3")
    v("output.RMS", out_rest.sqrt(), "A", "as above")
    v("output.Swing", high, "A", "from nothing to the peak")
    v("output.Charge", out_charge, "C", "by which the diode's ramp is above the load")
    v("output.UsualCharge", Iout * share * T, "C", "30 mA for 371.4 ns")
    a = v("output.Capacitive", out_charge / Cout, "V", "18.29 nC/33 µF")
    b = v("output.Resistive", high * esr, "V", "66.5 mA · 3 mΩ")
    total = v("output.Total", a + b, "V", "sum of both")
    v("output.Heat", out_rest * esr, "W", "(21.1 mA)² · 3 mΩ")
    m(crossover - fc, "Hz", "47 kHz - 10 kHz")
    m(Cout - needed, "F", "33 µF - 19.1 µF")
    m(D("5e-3") - total, "V", "5 mV - 0.75 mV")

    # Input and plugging in.
    Cin = v("Cin", s["Cin"], "F", given + ": 2 µF, nominal of ±20 %")
    Cby = v("Cby", D("0.47e-6"), "F", given)
    v("feed.Average", in_average, "A", "as above")
    v("feed.RMS", in_rest.sqrt(), "A", "as above")
    v("feed.Charge", in_charge, "C", "by which the switch's ramp is above the average")
    a = v("feed.Capacitive", in_charge / Cin, "V", "11.14 nC/2 µF")
    b = v("feed.Resistive", high * D("4e-3"), "V", "66.5 mA · 4 mΩ")
    v("feed.Total", a + b, "V", "sum of both")
    v("feed.Heat", in_rest * D("4e-3"), "W", "(16.1 mA)² · 4 mΩ")
    part = v("lift.Share", Cby / (Cby + Cout), "1", "0.47/33.47")
    jump = v("lift.Capacitor", Vin * part, "V", "24 V · 0.014")
    drop = v("lift.Current", D("0.3e-3") * 1200, "V", "0.3 mA · 1.2 kΩ")
    lift = v("lift.Lift", min(jump + drop, D("0.35")), "V", "697 mV, of which the diode leaves 350 mV")
    m(D("0.05") - a - b, "V", "50 mV - 5.8 mV")
    m(D("0.4") - lift, "V", "400 mV - 350 mV")

    # Losses at full load.
    in_av, in_sq, in_re, _ = pulsed(low_f, high_f, on_f, T, up_full / L)
    blocked = Vin + V
    conduct = v("loss.SwitchConduction", Rsw * in_sq, "W", "900 mΩ · (43.2 mA)²")
    v("loss.RectifierConduction", ZERO, "W", "there is none")
    diode = v("loss.Diode", Vd * Ifull + D("50e-6") * blocked * on_f / T, "W", "0.45 V · 80 mA + 50 µA · 29 V · 0.187")
    edges = v("loss.Switching", (blocked + Vd) * (low_f * D("8e-9") + high_f * D("10e-9")) / 2 / T, "W", "29.45 V · (68.6 mA · 8 ns + 128 mA · 10 ns)/2, 500 000 times a second")
    node = v("loss.Node", D("70e-12") * blocked * blocked / 2 / T, "W", "70 pF · (29 V)²/2, 500 000 times a second")
    v("loss.Recovery", ZERO, "W", "there is none")
    v("loss.DeadTime", ZERO, "W", "there is none")
    gate = v("loss.Gate", D("1.5e-9") * 5 / T, "W", "1.5 nC · 5 V, 500 000 times a second")
    still = v("loss.Quiescent", D("250e-6") * blocked, "W", "250 µA · 29 V")
    heat = v("loss.Regulator", conduct + edges + node + gate + still, "W", "sum of the above but the diode")
    copper = v("loss.Winding", Rwind * trapezoid(low_f, high_f) * (on_f + off_f) / T, "W", "350 mΩ · (99.9 mA)²")
    v("loss.Core", ZERO, "W", "not counted")
    v("loss.Inductor", copper, "W", "the winding")
    caps = v("loss.Capacitors", rest_f * esr + in_re * D("4e-3"), "W", "(41.4 mA)² · 3 mΩ + (39 mA)² · 4 mΩ")
    lost = v("loss.Total", heat + diode + copper + caps, "W", "sum of all")
    p_out = v("loss.OutputPower", V * Ifull, "W", "5 V · 80 mA")
    p_in = v("loss.InputPower", p_out + lost, "W", "what goes out and what is lost")
    v("loss.InputCurrent", p_in / Vin, "A", "481 mW/24 V")
    eta = v("loss.Efficiency", p_out / p_in, "1", "400/481")
    Tj = v("Tj", Ta + heat * theta, "K", "298.15 K + 40.9 mW · 90 K/W")
    m(eta - D("0.7"), "1", "0.832 - 0.7")
    m(85 + zero_celsius - Tj, "K", "85 °C - 28.7 °C")

    # The SEPIC. Its first winding carries the input current, its second the
    # load; both see half of the ripple of one inductor of 22 µH.
    Vi, Vo, load, rs, vd, rw = D(9), D(12), D("0.8"), D("0.06"), D("0.5"), D("0.08")
    fv, Lv = s["fv"], s["Lv"]
    T = 1 / fv
    stage("valve", {"Input": (Vi, "V"), "Output": (Vo, "V"), "Load": (load, "A"), "Frequency": (fv, "Hz"), "Inductance": (Lv, "H"), "Switch": (rs, "Ω"),
                    "Rectifier": none, "Diode": (vd, "V"), "Winding": (rw, "Ω"), "Second": none, "SecondWinding": none, "Efficiency": none})
    Cc = v("Ccoup", s["Ccoup"], "F", given + ": 10 µF, nominal of ±20 %")
    I, up, down, share = balance(load, lambda I, on: Vi - I * rs - I * on * rw, lambda I, off: Vo + vd + load * rw)
    rise, fall = up / Lv, down / Lv
    low, high, t_on, t_off = wave(load, up, down, share, Lv, T)
    assert low > 0
    v("pulses.OnSlope", rise, "A/s", "(9 V - 1.943 A · 60 mΩ - 1.143 A · 80 mΩ)/22 µH")
    v("pulses.OffSlope", fall, "A/s", "(12.5 V + 0.8 A · 80 mΩ)/22 µH")
    v("pulses.Duty", share, "1", "12.564/(12.564 + 8.792)")
    full = v("pulses.FullRipple", rise * share * T, "A", "399.6 kA/s · 1.961 µs")
    v("pulses.Boundary", full / 2 * (1 - share), "A", "what a triangle of that height gives in the off-time")
    v("pulses.Conduction", ONE, "1", "0.8 A is above the boundary")
    v("pulses.OnShare", t_on / T, "1", "1.961 µs of 3.333 µs")
    v("pulses.OffShare", t_off / T, "1", "the rest")
    v("pulses.OnTime", t_on, "s", "58.8 % of 3.333 µs")
    v("pulses.Ripple", high - low, "A", "from valley to peak")
    mean = v("pulses.Mean", (low + high) / 2, "A", "0.8 A in 41.2 % of the time")
    v("pulses.Peak", high, "A", "1.943 A + 0.392 A")
    v("pulses.Valley", low, "A", "1.943 A - 0.392 A")
    v("pulses.RMS", trapezoid(low, high).sqrt(), "A", "mean square of both ramps")
    in_average, in_square, _, _ = pulsed(low, high, t_on, T, rise)
    out_average, out_square, out_rest, _ = pulsed(low, high, t_off, T, fall)
    v("pulses.SwitchAverage", in_average, "A", "1.943 A for 58.8 % of the time")
    v("pulses.SwitchRMS", in_square.sqrt(), "A", "mean square of the rising ramp over the period")
    v("pulses.RectifierAverage", out_average, "A", "the load")
    v("pulses.RectifierRMS", out_square.sqrt(), "A", "mean square of the falling ramp over the period")
    v("pulses.OutputCapacitorRMS", out_rest.sqrt(), "A", "what is left of the square without the load's")
    half = full / 2
    # A triangle of height h has a mean square of h²/12 about its mean.
    ac = (half * half / 12).sqrt()
    v("pulses.InputCapacitorRMS", ac, "A", "triangle of half the ripple")

    v("windings.Share", HALF, "1", "both windings are alike")
    ends = {}
    for name, x in (("", mean * share), ("Second", load)):
        a, b = x - half / 2, x + half / 2
        ends[name] = a, b
        v("windings." + name + "Ripple", half, "A", "half of the ripple of both")
        v("windings." + name + "Mean", x, "A", "input current, 1.943 A · 0.588" if name == "" else "load")
        v("windings." + name + "Peak", b, "A", "mean and half of the ripple")
        v("windings." + name + "Valley", a, "A", "mean less half of the ripple")
        v("windings." + name + "RMS", trapezoid(a, b).sqrt(), "A", "mean square of the ramps")
        v("windings." + name + "AlternatingRMS", ac, "A", "triangle")
    (a1, b1), (a2, b2) = ends[""], ends["Second"]
    assert a1 > 0 and a2 > 0
    # It gives the second winding's current in the on-time and takes the first's in the off-time.
    given_charge, taken_charge = (a2 + b2) / 2 * t_on, (a1 + b1) / 2 * t_off
    assert abs(given_charge - taken_charge) < D("1e-30")
    rms = ((trapezoid(a2, b2) * t_on + trapezoid(a1, b1) * t_off) / T).sqrt()
    v("windings.CouplingRMS", rms, "A", "squares of both ramps over the period")
    v("windings.CouplingCharge", given_charge, "C", "0.8 A for 1.961 µs")
    Vc = v("coupling.Voltage", Vi - mean * share * rw + load * rw, "V", "9 V - 1.143 A · 80 mΩ + 0.8 A · 80 mΩ")
    v("coupling.RMS", rms, "A", "as above")
    v("coupling.Charge", given_charge, "C", "as above")
    a = v("coupling.Capacitive", given_charge / Cc, "V", "1.569 µC/10 µF")
    b = v("coupling.Resistive", (b1 + b2) * D("3e-3"), "V", "(1.339 A + 0.996 A) · 3 mΩ")
    total = v("coupling.Total", a + b, "V", "sum of both")
    part = v("coupling.Share", total / Vc, "1", "0.164 V/8.973 V")
    v("coupling.Most", Vc + total / 2, "V", "8.973 V + 0.082 V")
    v("coupling.Heat", rms * rms * D("3e-3"), "W", "(0.963 A)² · 3 mΩ")
    m(3 - high, "A", "3 A - 2.335 A")
    m(D("0.05") - part, "1", "5 % - 1.8 %")
    m(2 - rms, "A", "2 A - 0.963 A")


t.run(note)
# What depends on sources and is the same all the same: the clamp holds in every
# case, the loop asks for more than the inductor in every case, a SEPIC's mean
# currents would depend on its ripple below the boundary, and zeros.
t.write(spread=("requirement 9", "lift.Lift", "need.Capacitance", "need.ForUndershoot", "need.ForOvershoot", "pulses.Conduction", "pulses.Mean", "pulses.SwitchAverage", "windings.Mean",
                "loss.RectifierConduction", "loss.Recovery", "loss.DeadTime"))
