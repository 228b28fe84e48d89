"""Every value of the note 40-step-down, computed from the straight ramps of
an inductor's current, the charge of capacitors and Kirchhoff's and Ohm's laws,
with 40 decimal digits.

Preferred values are looked up by hand in IEC 60063 (from memory):
  E96 about 5.23: ... 5.11 5.23 5.36; about 5.88: ... 5.76 5.90 6.04; about
  4.41: ... 4.32 4.42 4.53
  E6: 1.0 1.5 2.2 3.3 4.7 6.8

Every value but the efficiency is at its extremes at corners of its sources.
The efficiency is largest at a load inside its range, where what every pulse
costs is as much as what the current costs: see best_load below.
"""

from decimal import Decimal as D
from itertools import product
from math import hypot

from table import F, PI, Table

ZERO, ONE, HALF = D(0), D(1), D("0.5")
pi = D(PI.numerator) / D(PI.denominator)

t = Table({
    "Vin": ("18", "24", "32"),
    "Iout": ("0.15", "0.6", "1.5"),
    "Ta": ("-20", "25", "60"),
    "Vref": ("0.788", "0.8", "0.812"),
    "fsw": ("360e3", "400e3", "440e3"),
    "Rbot": ("9.95e3", "10e3", "10.05e3"),
    "Rtop": ("52.0385e3", "52.3e3", "52.5615e3"),
    "L": ("17.6e-6", "22e-6", "26.4e-6"),
    "Ilim": ("2.5", "3.1", "3.7"),
    "Cout": ("88e-6", "110e-6", "132e-6"),
    "Cin": ("4.8e-6", "6e-6", "7.2e-6"),
})


def dec(x):
    return D(x.numerator) / D(x.denominator)


def trapezoid(a, b):
    """Mean square of what goes straight from a to b."""
    return (a * a + a * b + b * b) / 3


peaks = {}


def largest_impedance(Z, n, R):
    """Of an inductor, a capacitor and n times the capacitor in series with R,
    all in parallel, Z the impedance of the first two: complex numbers, a sweep
    of the frequency, and ever finer sweeps around its largest point."""
    key = (Z, n, R)
    if key not in peaks:
        z, m, r = float(Z), float(n), float(R)

        def size(w):
            y = 1 / (1j * w * z) + 1j * w / z + 1 / (r + z / (1j * w * m))
            return 1 / hypot(y.real, y.imag)

        low, high = 0.05, 5.0
        for _ in range(12):
            points = [low + (high - low) * k / 200 for k in range(201)]
            best = max(range(201), key=lambda k: size(points[k]))
            low, high = points[max(best - 1, 0)], points[min(best + 1, 200)]
        peaks[key] = D(size((low + high) / 2))
    return peaks[key]


most_ripple = ZERO  # of ripple.Total in any case, known after a first run


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
    Iout = v("Iout", s["Iout"], "A", given + ": usual of 0.15 A, 0.6 A, 1.5 A")
    Ifull = D("1.5")
    Ta = v("Ta", s["Ta"] + zero_celsius, "K", "25 °C + 273.15 K, usual of -20 °C, 25 °C, 60 °C")
    Vref = v("Vref", s["Vref"], "V", given + ": typical of 788 mV, 800 mV, 812 mV")
    f = v("fsw", s["fsw"], "Hz", given + ": 400 kHz, nominal of ±10 %")
    T = 1 / f
    Rhigh = v("Rhigh", D("0.22"), "Ω", given)
    Rlow = v("Rlow", D("0.13"), "Ω", given)
    theta = v("θJA", D(42), "K/W", given + ": a degree of difference is a kelvin")
    Tjmax = v("Tjmax", D(125) + zero_celsius, "K", "125 °C + 273.15 K")

    # Output voltage.
    Vwanted = v("Vwanted", D(5), "V", given)
    Rbot = v("Rbot", s["Rbot"], "Ω", given + ": 10 kΩ, nominal of ±0.5 %")
    Rtop = v("Rtop", s["Rtop"], "Ω", "10 kΩ · (5 V/0.8 V - 1) = 52.5 kΩ; E96 has 52.3 and 53.6 there, the nearer is 52.3")
    pin = D("50e-9")
    I = v("set.LowerCurrent", Vref / Rbot, "A", "0.8 V/10 kΩ")
    v("set.UpperCurrent", I + pin, "A", "80 µA, and 50 nA into the pin")
    v("set.Upper", Rtop, "Ω", "as chosen")
    v("set.Lower", Rbot, "Ω", "as chosen")
    Vout = v("set.Output", Vref + (I + pin) * Rtop, "V", "0.8 V + 80.05 µA · 52.3 kΩ")
    v("set.PinShift", pin * Rtop, "V", "50 nA · 52.3 kΩ")
    v("set.PinShare", pin / I, "1", "50 nA/80 µA")
    v("Vout", Vout, "V", "as set")
    m(min(Vout - D("4.75"), D("5.25") - Vout), "V", "the nearer end of 4.75 V and 5.25 V: 4.987 V - 4.75 V")

    # The inductor, at full load.
    Rwind = v("Rwind", D("0.07"), "Ω", given)

    def voltages(I):
        """Across the inductance with the high switch on, and off."""
        return Vin - Vout - I * (Rhigh + Rwind), Vout + I * (Rlow + Rwind)

    on, off = voltages(Ifull)
    d = v("ideal.Duty", off / (on + off), "1", "on 24 - 4.987 - 1.5 · 0.29 V, off 4.987 + 1.5 · 0.2 V; both times balance: off/(on + off)")
    wanted = v("ideal.Ripple", D("0.35") * Ifull, "A", "35 % of 1.5 A")
    t_off = v("ideal.OffTime", (1 - d) * T, "s", "what the duty leaves of 2.5 µs")
    v("ideal.OffVoltage", off, "V", "4.987 V + 1.5 A · 0.2 Ω")
    v("ideal.Inductance", off * t_off / wanted, "H", "L = V · t/I: 5.287 V · 1.946 µs/0.525 A")
    # At 32 V, 360 kHz and the highest output it is 23.74 µH, E6 22 and 33.
    L = v("L", s["L"], "H", "23.74 µH at its largest; E6 has 22 and 33 there, the nearer is 22; nominal of ±20 %")

    # Currents. The current rises from valley to peak and falls back; where the
    # load is less than half of that, it starts at zero and rests.
    for name, x, unit in (("Input", Vin, "V"), ("Output", Vout, "V"), ("Load", Iout, "A"), ("Frequency", f, "Hz"), ("Inductance", L, "H"),
                          ("HighSwitch", Rhigh, "Ω"), ("LowSwitch", Rlow, "Ω"), ("Diode", ZERO, "1"), ("Winding", Rwind, "Ω")):
        v("stage." + name, x, unit, "as above" if name != "Diode" else "not given")

    def wave(load):
        """Slopes, times and both ends of the current at a load, and its mean squares."""
        on, off = voltages(load)
        up, down = on / L, off / L
        full_on = T * off / (on + off)
        full_ripple = up * full_on
        if load >= full_ripple / 2:
            t_on, t_down = full_on, T - full_on
            low, high = load - full_ripple / 2, load + full_ripple / 2
        else:
            # load · T = high · (high/up + high/down)/2.
            high = (2 * load * T / (1 / up + 1 / down)).sqrt()
            low, t_on, t_down = ZERO, high / up, high / down
        square, mean = trapezoid(low, high), (low + high) / 2
        average = mean * t_on / T
        high_square, low_square = square * t_on / T, square * t_down / T
        # A capacitor takes what is left of the square without that of the mean.
        out_square = high_square + low_square - load * load
        in_square = high_square - average * average
        return up, down, full_on, full_ripple, t_on, t_down, low, high, mean, average, high_square, low_square, out_square, in_square

    up, down, full_on, full_ripple, t_on, t_down, low, high, mean, average, high_square, low_square, out_square, in_square = wave(Iout)
    off = voltages(Iout)[1]
    v("i.OnSlope", up, "A/s", "(24 - 4.987 - 0.6 · 0.29) V/22 µH")
    v("i.OffSlope", down, "A/s", "(4.987 + 0.6 · 0.2) V/22 µH")
    v("i.Duty", full_on / T, "1", "5.107/(18.839 + 5.107)")
    v("i.FullRipple", full_ripple, "A", "856.3 kA/s · 533.1 ns")
    v("i.Boundary", full_ripple / 2, "A", "the mean of a triangle of that height")
    v("i.Conduction", (t_on + t_down) / T, "1", "0.6 A is above the boundary: all of the period")
    v("i.OnShare", t_on / T, "1", "533.1 ns of 2.5 µs")
    v("i.OnTime", t_on, "s", "0.457 A at 856.3 kA/s")
    ripple = v("i.Ripple", high - low, "A", "from valley to peak")
    v("i.Mean", mean, "A", "half way from valley to peak")
    v("i.Peak", high, "A", "0.6 A + 0.228 A")
    v("i.Valley", low, "A", "0.6 A - 0.228 A")
    i_rms = v("i.InductorRMS", (high_square + low_square).sqrt(), "A", "mean square of both ramps: (a² + ab + b²)/3")
    v("i.HighAverage", average, "A", "0.6 A for 533.1 ns of 2.5 µs")
    v("i.HighRMS", high_square.sqrt(), "A", "mean square of the rising ramp over the period")
    v("i.LowAverage", mean * t_down / T, "A", "0.6 A for the rest")
    v("i.LowRMS", low_square.sqrt(), "A", "mean square of the falling ramp over the period")
    v("i.OutputCapacitorRMS", out_square.sqrt(), "A", "what is left of the square without the load's")
    v("i.InputCapacitorRMS", in_square.sqrt(), "A", "what is left of the high switch's square without the average's")
    m(D(2) - i_rms, "A", "2 A - 0.614 A")

    # Limits.
    Ilim = v("Ilim", s["Ilim"], "A", given + ": typical of 2.5 A, 3.1 A, 3.7 A")
    Isat = v("Isat", D("4.4"), "A", given)
    v("limit.Peak", high, "A", "as above")
    m1 = v("limit.PeakMargin", Ilim - high, "A", "3.1 A - 0.828 A")
    v("limit.MostLoad", Ilim - full_ripple / 2, "A", "3.1 A less half the ripple")
    over = v("limit.Overrun", Vin / L * D("80e-9"), "A", "24 V/22 µH for 80 ns")
    v("limit.LargestPeak", Ilim + over, "A", "3.1 A + 0.087 A")
    m2 = v("limit.SaturationMargin", Isat - Ilim - over, "A", "4.4 A - 3.187 A")
    v("limit.SaturationShare", m2 / Isat, "1", "of 4.4 A")
    m(m1 - D("0.2"), "A", "2.272 A - 0.2 A")
    m(m2, "A", "as above")

    # The inductor's own curve, in straight pieces: inductor-current.csv.
    rows = [(D(a), D(share) / 100) for a, share in (("0", "100"), ("1", "99"), ("1.5", "97.5"), ("2", "95"), ("3", "87"), ("4.4", "70"), ("5", "61"))]
    (a1, k1), (a2, k2) = next(pair for pair in zip(rows, rows[1:]) if high <= pair[1][0])
    kept = k1 + (k2 - k1) * (high - a1) / (a2 - a1)
    v("left", L * kept, "H", "22 µH · (1 - 0.01 · 0.828/1)")
    steep = v("steep", (high - low) / kept, "A", "0.457 A/0.9917")
    m(D("0.8") - steep, "A", "0.8 A - 0.460 A")
    ton = v("ton", D("120e-9"), "s", given)
    toff = v("toff", D("200e-9"), "s", given)
    v("timing.Duty", full_on / T, "1", "as above")
    v("timing.OnTime", full_on, "s", "as above")
    v("timing.OnMargin", full_on - ton, "s", "533.1 ns - 120 ns")
    v("timing.OffTime", T - full_on, "s", "2.5 µs - 533.1 ns")
    off_margin = v("timing.OffMargin", T - full_on - toff, "s", "1.967 µs - 200 ns")
    most = v("timing.MostDuty", (T - toff) / T, "1", "2.3 µs of 2.5 µs")
    # At the limits: (Vin - Vout - 0.174 V) · D = off · (1 - D).
    least_input = v("timing.LeastInput", off * (1 - most) / most + Vout + Iout * (Rhigh + Rwind), "V", "5.107 V · 8/92 + 4.987 V + 0.174 V")
    v("timing.MostInput", off * (T - ton) / ton + Vout + Iout * (Rhigh + Rwind), "V", "5.107 V · 2380/120 + 4.987 V + 0.174 V")
    v("timing.LightOn", t_on, "s", "as above")
    light = v("timing.LightSpare", t_on - ton, "s", "533.1 ns - 120 ns")
    m(light, "s", "as above")
    m(off_margin, "s", "as above")

    # A short circuit: what rises in 200 ns falls in the rest of the period,
    # (Vin - I · 0.29 Ω) · 200 ns = I · 0.2 Ω · (T - 200 ns).
    fold = v("fold", D("0.125"), "1", given)
    kick, decay = D("200e-9"), T / fold - D("200e-9")
    rising_way, falling_way = Rhigh + Rwind, Rlow + Rwind
    v("fault.Frequency", f * fold, "Hz", "400 kHz/8")
    climb = v("fault.Settled", Vin * kick / (rising_way * kick + falling_way * decay), "A", "24 V · 0.2 µs/(0.29 Ω · 0.2 µs + 0.2 Ω · 19.8 µs)")
    climbs = v("fault.Rise", (Vin - climb * rising_way) * kick / L, "A", "(24 V - 1.195 A · 0.29 Ω) · 200 ns/22 µH")
    climb_peak = v("fault.Runaway", climb + climbs / 2, "A", "1.195 A + 0.215 A/2")
    hold = v("fault.LimitMargin", Ilim - climb_peak, "A", "3.1 A - 1.302 A")
    v("fault.Peak", max(Ilim, climb_peak), "A", "the limit's 3.1 A")
    held_mean = Ilim - (Vin - Ilim * rising_way) * kick / L / 2
    # At this mean the pulse's period is: pulse + (what rises)/(what falls a second).
    held_period = kick + (Vin - held_mean * rising_way) * kick / (held_mean * falling_way)
    v("fault.MostShare", T / held_period, "1", "2.5 µs of the 7.92 µs in which 2.995 A falls by what 200 ns make it rise")
    v("fault.Average", max(Ilim, climb_peak) - climbs / 2, "A", "3.1 A - 0.108 A")
    m(hold, "A", "as above")

    # Output capacitor. The missing current is a triangle of step and rise time.
    step = v("Istep", D("1.2"), "A", given)
    delay = v("delay", D("5e-6"), "s", given)
    rise = v("need.RiseTime", step / up, "s", "1.2 A at 856.3 kA/s, which the high switch makes when it stays on")
    fall = v("need.FallTime", step / down, "s", "1.2 A at 232.1 kA/s")
    q_up, q_down = step * (delay + rise / 2), step * (delay + fall / 2)
    v("need.ForUndershoot", q_up / D("0.1"), "F", "1.2 A · (5 µs + half the rise)/0.1 V")
    v("need.ForOvershoot", q_down / D("0.1"), "F", "1.2 A · (5 µs + half the fall)/0.1 V")
    v("need.Capacitance", max(q_up, q_down) / D("0.1"), "F", "the larger of both")
    v("need.ESR", D("0.1") / step, "Ω", "0.1 V/1.2 A")
    Cout = v("Cout", s["Cout"], "F", given + ": 110 µF, nominal of ±20 %")
    esr, esl = D("1e-3"), D("0.2e-9")
    v("swing.Ripple", ripple, "A", "as above")
    # The current is above the load for a part of the rise and of the fall.
    above = high - Iout
    charge = v("swing.Charge", above * (above / up + above / down) / 2, "C", "triangle over the load: 0.228 A for half of 2.5 µs, halved")
    capacitive = v("swing.Capacitive", charge / Cout, "V", "142.7 nC/110 µF")
    resistive = v("swing.Resistive", ripple * esr, "V", "0.456 A · 1 mΩ")
    inductive = v("swing.Inductive", esl * (up + down), "V", "0.2 nH · (856.3 + 232.1) kA/s")
    total = v("swing.Total", capacitive + resistive + inductive, "V", "sum of the three")
    v("swing.RMS", out_square.sqrt(), "A", "as above")
    v("swing.Heat", out_square * esr, "W", "(0.132 A)² · 1 mΩ")
    v("step.RiseSlope", up, "A/s", "as above")
    v("step.FallSlope", down, "A/s", "as above")
    v("step.RiseTime", rise, "s", "as above")
    v("step.FallTime", fall, "s", "as above")

    def swing(slope, time):
        # After the delay the missing current is slope · (time - x), and
        # the deviation its charge so far over Cout and its drop across ESR; its
        # slope is zero where the missing current/Cout is slope · ESR.
        tau = esr * Cout
        assert tau < time
        x = time - tau
        return (step * delay + step * x - slope * x * x / 2) / Cout + slope * (time - x) * esr

    under = v("step.Undershoot", swing(up, rise), "V", "charge to the largest point over 110 µF, and 1 mΩ there")
    overshoot = v("step.Overshoot", swing(down, fall), "V", "charge to the largest point over 110 µF, and 1 mΩ there")
    m(D("0.02") - total, "V", "20 mV - 1.97 mV")
    m(Vout - under - most_ripple / 2 - D("4.75"), "V", "4.987 V - 62.2 mV - 1.9 mV - 4.75 V")
    m(D("5.25") - Vout - overshoot - most_ripple / 2, "V", "5.25 V - 4.987 V - 82.8 mV - 1.9 mV")

    # Input capacitor: gives what the high switch takes above the average.
    Cin = v("Cin", s["Cin"], "F", given + ": 6 µF, nominal of ±20 %")
    v("feed.Average", average, "A", "as above")
    feed_rms = v("feed.RMS", in_square.sqrt(), "A", "as above")
    share = full_on / T
    v("feed.UsualRMS", Iout * (share - share * share).sqrt(), "A", "0.6 A · √(0.2133 · 0.7867)")
    # It discharges while the rising ramp is above the average.
    if low >= average:
        drawn = (mean - average) * t_on
    else:
        drawn = (high - average) ** 2 / up / 2
    v("feed.Charge", drawn, "C", "(0.6 A - 0.128 A) · 533.1 ns")
    a = v("feed.Capacitive", drawn / Cin, "V", "251.7 nC/6 µF")
    b = v("feed.Resistive", high * D("2e-3"), "V", "0.828 A · 2 mΩ")
    v("feed.Total", a + b, "V", "sum of both")
    v("feed.Heat", in_square * D("2e-3"), "W", "(0.253 A)² · 2 mΩ")
    m(D("0.25") - a - b, "V", "250 mV - 43.6 mV")
    m(1 - feed_rms, "A", "1 A - 0.253 A")

    # Losses at a load.
    def losses(load, v):
        _, _, _, _, t_on, t_down, low, high, _, _, high_square, low_square, out_square, in_square = wave(load)
        fr, rr = f / D("500e3"), (high - low) / HALF
        core = D("0.045") * fr * fr.sqrt() * rr * rr * rr.sqrt()
        a = v("HighConduction", Rhigh * high_square, "W", "220 mΩ · (0.709 A)²")
        b = v("LowConduction", Rlow * low_square, "W", "130 mΩ · (1.329 A)²")
        v("Diode", ZERO, "W", "there is none")
        # Each edge: voltage from 0 to input and drop of the low switch, current as it is: half the product.
        edge = (Vin + load * Rlow) * D("12e-9") / 2
        c = v("Switching", (edge * low + edge * high) / T, "W", "24.195 V · 12 ns/2 · (1.266 A + 1.734 A), 400 000 times a second")
        d = v("Node", D("180e-12") * Vin * Vin / 2 / T, "W", "180 pF · (24 V)²/2, 400 000 times a second")
        e = v("Recovery", D("4e-9") * Vin / T, "W", "4 nC · 24 V, 400 000 times a second")
        g = v("DeadTime", D("0.8") * (low + high) * D("20e-9") / T, "W", "0.8 V · (1.266 A + 1.734 A) · 20 ns, 400 000 times a second")
        h = v("Gate", D("9e-9") * 5 / T, "W", "9 nC · 5 V, 400 000 times a second")
        j = v("Quiescent", D("350e-6") * Vin, "W", "350 µA · 24 V")
        part = v("Regulator", a + b + c + d + e + g + h + j, "W", "sum of the above")
        winding = v("Winding", Rwind * (high_square + low_square), "W", "70 mΩ · (1.506 A)²")
        v("Core", core, "W", "45 mW · 0.8^1.5 · (0.468/0.5)^2.5")
        v("Inductor", winding + core, "W", "sum of both")
        caps = v("Capacitors", out_square * esr + in_square * D("2e-3"), "W", "(0.135 A)² · 1 mΩ + (0.626 A)² · 2 mΩ")
        lost = v("Total", part + winding + core + caps, "W", "sum of all")
        p_out = v("OutputPower", Vout * load, "W", "4.987 V · 1.5 A")
        p_in = v("InputPower", p_out + lost, "W", "what goes out and what is lost")
        v("InputCurrent", p_in / Vin, "A", "8.286 W/24 V")
        eta = v("Efficiency", p_out / p_in, "1", "7.480/8.286")
        return part, p_in, eta

    part, p_in, _ = losses(Ifull, lambda name, *rest: v("loss." + name, *rest))
    Tj = v("Tj", Ta + part * theta, "K", "298.15 K + 0.619 W · 42 K/W")
    m(Tjmax - 15 - Tj, "K", "383.15 K - 324.15 K")
    eta = v("η", losses(Iout, lambda name, x, *rest: x)[2], "1", "the same at 0.6 A: 2.992 W of 3.263 W")
    m(eta - D("0.75"), "1", "0.9169 - 0.75")

    # Input filter.
    Lf, Cd, Rd = D("4.7e-6"), D("100e-6"), D("0.35")
    negative = v("filter.NegativeResistance", Vin / (p_in / Vin), "Ω", "24 V/0.3452 A")
    Z = v("filter.Characteristic", (Lf / Cin).sqrt(), "Ω", "√(4.7 µH/6 µF)")
    f0 = v("filter.Resonance", 1 / (2 * pi * (Lf * Cin).sqrt()), "Hz", "1/(2π · √(4.7 µH · 6 µF))")
    n = v("filter.Ratio", Cd / Cin, "1", "100/6")
    v("filter.BestResistance", Z * ((2 + n) * (4 + 3 * n) / (2 * n * n * (4 + n))).sqrt(), "Ω", "Erickson 1999 (from memory), n = 100/6")
    v("filter.Resistance", Rd, "Ω", given)
    largest = v("filter.LargestImpedance", largest_impedance(Z, n, Rd), "Ω", "sweep of the three branches in parallel")
    ratio = v("filter.Margin", negative / largest, "1", "69.52 Ω/0.3657 Ω")
    v("filter.Attenuation", (f / f0) ** 2 - 1, "1", "(400/29.97)² - 1")
    m(ratio - 3, "1", "190.1 - 3")

    # Start. The choices are made once.
    v("Css", D("15e-9"), "F", "4 µA · 3 ms/0.8 V = 15 nF, a member of E6")
    v("start.Time", D("0.003"), "s", "15 nF · 0.8 V/4 µA")
    charging = v("start.ChargeCurrent", D("220e-6") * Vwanted / D("0.003"), "A", "220 µF · 5 V/3 ms")
    q = v("boot.Charge", D("5e-9") + D("50e-6") / D("360e3"), "C", "5 nC + 50 µA/360 kHz")
    v("boot.Capacitance", q / D("0.1"), "F", "5.139 nC/0.1 V")
    refresh = v("boot.Refresh", 3 * 5 * q / D("0.1"), "s", "3 · 5 Ω · 51.39 nF")
    m(D("2.5") - Ifull - charging, "A", "2.5 A - 1.5 A - 0.367 A")
    m(D("1e-6") - refresh, "s", "1 µs - 0.771 µs")
    return eta, least_input


t.run(note)
most_ripple = dec(t.high["swing.Total"])
t.run(note)


def best_load(at):
    """The load at which the efficiency is largest, by golden section: it
    rises up to there and falls from there on."""
    def eta(load):
        return note(lambda *_: None, lambda *_: None, {**at, "Iout": F(load)})[0]

    a, b = D("0.15"), D("1.5")
    golden = (D(5).sqrt() - 1) / 2
    for _ in range(45):
        c, d = b - golden * (b - a), a + golden * (b - a)
        a, b = (a, d) if eta(c) > eta(d) else (c, b)
    return F(eta((a + b) / 2))


# The other sources stand at corners: at the lowest input and frequency, where
# every pulse costs least and there are fewest. Those that the efficiency does
# not depend on stay where they are.
others = ("Vin", "Vref", "fsw", "Rbot", "Rtop", "L")
usual = {name: limits[1] for name, limits in t.sources.items()}
corners = [{**usual, **dict(zip(others, c))} for c in product(*((t.sources[o][0], t.sources[o][2]) for o in others))]
t.high["η"] = max(best_load(c) for c in corners if c["Vin"] == 18 and c["fsw"] == t.sources["fsw"][0])

# The lockout has sources of its own, and the input at which the output drops
# out, which is largest at its own corner.
u = Table({
    "Ven": ("1.14", "1.2", "1.26"),
    "Rupper": ("584.1e3", "590e3", "595.9e3"),
    "Rlower": ("43.758e3", "44.2e3", "44.642e3"),
    "drop out": (t.low["timing.LeastInput"], t.lines["timing.LeastInput"][0], t.high["timing.LeastInput"]),
})


def lockout(v, margin, s):
    pull, extra = F("1.2e-6"), F("3.4e-6")
    v("lock.Ratio", F(1), "1", "one threshold")
    upper = v("lock.Upper", (F("16.5") - F("14.5")) / extra, "Ω", "2 V/3.4 µA")
    v("lock.Lower", F("1.2") / ((F("16.5") - F("1.2")) / upper + pull), "Ω", "1.2 V over (15.3 V/588.2 kΩ + 1.2 µA)")
    Ven = v("Ven", s["Ven"], "V", "given: typical of 1.14 V, 1.2 V, 1.26 V")
    Rupper = v("Rupper", s["Rupper"], "Ω", "E96 has 576, 590 and 604 kΩ there, the nearest is 590; nominal of ±1 %")
    Rlower = v("Rlower", s["Rlower"], "Ω", "E96 has 43.2, 44.2 and 45.3 kΩ there, the nearest is 44.2; nominal of ±1 %")
    start = v("uvlo.Start", Ven + (Ven / Rlower - pull) * Rupper, "V", "1.2 V + (27.15 µA - 1.2 µA) · 590 kΩ")
    stop = v("uvlo.Stop", Ven + (Ven / Rlower - pull - extra) * Rupper, "V", "1.2 V + (27.15 µA - 4.6 µA) · 590 kΩ")
    v("uvlo.Hysteresis", start - stop, "V", "3.4 µA · 590 kΩ")
    margin(18 - start, "V", "18 V - 16.51 V")
    margin(stop - s["drop out"], "V", "14.5 V - 5.6 V")


u.run(lockout)

# In the note's order: the requirements of the rail, then those of the lockout.
merged, order = {}, 0
first = [name for name in t.lines if name.startswith("requirement")]
for table, names in ((t, first), (u, [n for n in u.lines if n.startswith("requirement")])):
    for name in names:
        order += 1
        merged[f"requirement {order}"] = (table.lines[name], table.low[name], table.high[name])
for table in (t, u):
    for name, x in table.lines.items():
        if not name.startswith("requirement"):
            merged[name] = (x, table.low[name], table.high[name])
t.lines, t.low, t.high = ({name: x[k] for name, x in merged.items()} for k in range(3))
t.write(spread={"loss.Diode"})
