"""Every value of the note 50-step-up, computed from the straight ramps of an
inductor's current, the balance of power and of charge and Kirchhoff's and
Ohm's laws, with 40 decimal digits.

Preferred values are looked up by hand in IEC 60063 (from memory):
  E96 about 9.0: ... 8.66 8.87 9.09 9.31
  E6: 1.0 1.5 2.2 3.3 4.7 6.8

Every value is at its extremes at corners of its sources: the input stays below
half the output, where the ripple would be largest, and of the two loads one is
above and one below the boundary of conduction in every case.
"""

from decimal import Decimal as D
from math import acos, exp, pi as PI_FLOAT, sqrt

from table import F, PI, Table

ZERO, ONE, HALF = D(0), D(1), D("0.5")
pi = D(PI.numerator) / D(PI.denominator)

t = Table({
    "Vcell": ("3", "3.7", "4.2"),
    "Iout": ("0.015", "0.08", "0.25"),
    "Ta": ("-20", "25", "60"),
    "Vref": ("1.18", "1.2", "1.22"),
    "fsw": ("0.9e6", "1e6", "1.1e6"),
    "Rbot": ("9.9e3", "10e3", "10.1e3"),
    "Rtop": ("89.991e3", "90.9e3", "91.809e3"),
    "L": ("5.44e-6", "6.8e-6", "8.16e-6"),
    "Cout": ("11.2e-6", "14e-6", "16.8e-6"),
})

# The current limit has a source of its own, and nothing of the capacitor.
u = Table({name: t.sources[name] for name in ("Vcell", "Vref", "fsw", "Rbot", "Rtop", "L")} | {
    "Ilim": ("1.8", "2.1", "2.4"),
})


def dec(x):
    return D(x.numerator) / D(x.denominator)


def trapezoid(a, b):
    """Mean square of what goes straight from a to b."""
    return (a * a + a * b + b * b) / 3


def halving(f, a, b):
    """Where f rises through 0, between a and b."""
    for _ in range(120):
        m = (a + b) / 2
        a, b = (m, b) if f(m) < 0 else (a, m)
    return (a + b) / 2


Rsw, Vd, Rwind, Ifull, Ilight = D("0.14"), D("0.45"), D("0.08"), D("0.25"), D("0.015")


class Stage:
    """The regulator at one load: the mean current by the balance of power."""

    def __init__(self, Vin, Vout, f, L, load):
        self.Vin, self.Vout, self.L, self.load, self.T = Vin, Vout, L, load, 1 / f
        # Vin·I = (Vout + Vd)·load + I²·Rwind + (I² - load·I)·Rsw, because the
        # rectifier carries load of I: the smaller root.
        b = Vin + load * Rsw
        self.I = (b - (b * b - 4 * (Rwind + Rsw) * (Vout + Vd) * load).sqrt()) / (2 * (Rwind + Rsw))
        self.on = Vin - self.I * (Rsw + Rwind)
        self.off = Vout + Vd + self.I * Rwind - Vin
        self.full_on = self.T * (1 - load / self.I)
        self.up, self.down = self.on / L, self.off / L
        self.full_ripple = self.up * self.full_on
        if self.I >= self.full_ripple / 2:
            self.t_on, self.t_down = self.full_on, self.T - self.full_on
            self.low, self.high = self.I - self.full_ripple / 2, self.I + self.full_ripple / 2
        else:
            # The rectifier's triangle: load · T = high · (high/down)/2.
            self.high = (2 * load * self.T * self.down).sqrt()
            self.low, self.t_on, self.t_down = ZERO, self.high / self.up, self.high / self.down
        square = trapezoid(self.low, self.high)
        self.switch_square, self.rectifier_square = square * self.t_on / self.T, square * self.t_down / self.T
        self.square = self.switch_square + self.rectifier_square


def output(s):
    return s["Vref"] * (1 + s["Rtop"] / s["Rbot"])


def note(line, margin, at):
    s = {name: dec(x) for name, x in at.items()}
    zero_celsius = D("273.15")

    def v(name, x, unit, how):
        line(name, F(x), unit, how)
        return x

    def m(x, unit, how):
        margin(F(x), unit, how)

    given = "given"
    Vcell = v("Vcell", s["Vcell"], "V", given + ": usual of 3.0 V, 3.7 V, 4.2 V")
    v("Iout", s["Iout"], "A", given + ": usual of 15 mA, 80 mA, 250 mA")
    Ta = v("Ta", s["Ta"] + zero_celsius, "K", "25 °C + 273.15 K, usual of -20 °C, 25 °C, 60 °C")
    Vref = v("Vref", s["Vref"], "V", given + ": typical of 1.18 V, 1.2 V, 1.22 V")
    f = v("fsw", s["fsw"], "Hz", given + ": 1 MHz, nominal of ±10 %")
    v("Rsw", Rsw, "Ω", given)
    v("Vd", Vd, "V", given)
    theta = v("θJA", D(90), "K/W", given + ": a degree of difference is a kelvin")
    theta_d = v("θD", D(80), "K/W", given)

    v("Vwanted", D(12), "V", given)
    v("Rbot", s["Rbot"], "Ω", given + ": 10 kΩ, nominal of ±1 %")
    v("Rtop", s["Rtop"], "Ω", "10 kΩ · (12 V/1.2 V - 1) = 90 kΩ; E96 has 88.7 and 90.9 there, the nearer is 90.9; nominal of ±1 %")
    Vout = v("Vout", output(s), "V", "1.2 V · (1 + 9.09)")
    m(min(Vout - D("11.4"), D("12.6") - Vout), "V", "the nearer end of 11.4 V and 12.6 V: 12.6 V - 12.108 V")

    v("Rwind", Rwind, "Ω", given)
    L = s["L"]
    g = Stage(Vcell, Vout, f, L, Ifull)
    duty = v("ideal.Duty", 1 - Ifull / g.I, "1", "the rectifier carries 0.25 A of 0.887 A")
    v("ideal.Mean", g.I, "A", "3.7 V · I = 12.558 V · 0.25 A + I² · 0.08 Ω + (I² - 0.25 A · I) · 0.14 Ω")
    wanted = v("ideal.Ripple", D("0.4") * g.I, "A", "40 % of 0.887 A")
    v("ideal.OnTime", duty * g.T, "s", "71.81 % of 1 µs")
    v("ideal.OnVoltage", g.on, "V", "3.7 V - 0.887 A · 0.22 Ω")
    v("ideal.Inductance", g.on * duty * g.T / wanted, "H", "3.505 V · 718.1 ns/0.355 A")
    # At 4.2 V, 0.9 MHz and the highest output it is 9.993 µH, E6 6.8 and 10.
    v("L", L, "H", "9.993 µH at its largest; the largest member of E6 that is not above it is 6.8 µH; nominal of ±20 %")

    v("full.OnSlope", g.up, "A/s", "3.505 V/6.8 µH")
    v("full.OffSlope", g.down, "A/s", "(12.108 + 0.45 + 0.071 - 3.7) V/6.8 µH")
    v("full.Duty", g.full_on / g.T, "1", "as above")
    v("full.FullRipple", g.full_ripple, "A", "515.4 kA/s · 718.1 ns")
    v("full.Boundary", g.full_ripple / 2 * (1 - g.full_on / g.T), "A", "half the ripple, of which the rectifier carries 28.19 %")
    v("full.Conduction", (g.t_on + g.t_down) / g.T, "1", "0.887 A is above half the ripple: all of the period")
    v("full.OnShare", g.t_on / g.T, "1", "718.1 ns of 1 µs")
    v("full.OnTime", g.t_on, "s", "0.370 A at 515.4 kA/s")
    v("full.Ripple", g.high - g.low, "A", "from valley to peak")
    v("full.Mean", g.I, "A", "as above")
    v("full.Flowing", (g.low + g.high) / 2, "A", "half way from valley to peak")
    v("full.Peak", g.high, "A", "0.887 A + 0.185 A")
    v("full.Valley", g.low, "A", "0.887 A - 0.185 A")
    rms = v("full.InductorRMS", g.square.sqrt(), "A", "mean square of both ramps: (a² + ab + b²)/3")
    v("full.SwitchAverage", (g.low + g.high) / 2 * g.t_on / g.T, "A", "0.887 A for 71.81 % of the time")
    v("full.SwitchRMS", g.switch_square.sqrt(), "A", "mean square of the rising ramp over the period")
    v("full.RectifierAverage", Ifull, "A", "the load")
    v("full.RectifierRMS", g.rectifier_square.sqrt(), "A", "mean square of the falling ramp over the period")
    out_square, in_square = g.rectifier_square - Ifull * Ifull, g.square - g.I * g.I
    v("full.OutputCapacitorRMS", out_square.sqrt(), "A", "what is left of the rectifier's square without the load's")
    v("full.InputCapacitorRMS", in_square.sqrt(), "A", "what is left of the inductor's square without the mean's")
    m(D("1.6") - rms, "A", "1.6 A - 0.893 A")

    # At rest, where the current rests too.
    e = Stage(Vcell, Vout, f, L, Ilight)
    assert e.low == 0 and g.low > 0
    v("timing.Duty", e.full_on / e.T, "1", "what the rectifier leaves of the mean: 15 mA of 51.05 mA")
    v("timing.MostDuty", D("0.88"), "1", given)
    v("timing.DutyMargin", D("0.88") - e.full_on / e.T, "1", "88 % - 70.61 %")
    ton = D("120e-9")
    v("timing.OnTime", e.full_on, "s", "70.61 % of 1 µs")
    v("timing.OnMargin", e.full_on - ton, "s", "706.1 ns - 120 ns")
    v("timing.OffTime", e.T - e.full_on, "s", "the rest of 1 µs")
    v("timing.OffMargin", e.T - e.full_on, "s", "no shortest off-time is given")

    def needs(share):
        """The input that gives the light load with the rectifier on for a
        share of the time: its current is then 15 mA/share."""
        mean = Ilight / share
        return (Vout + Vd) * share + mean * (Rwind + Rsw) - Ilight * Rsw

    v("timing.LeastInput", needs(D("0.12")), "V", "12.558 V · 12 % + 125 mA · 0.22 Ω - 15 mA · 0.14 Ω; of this load √(3.3 mV/12.56 V) = 1.6 % would be the least share")
    v("timing.MostInput", needs(1 - ton / e.T), "V", "12.558 V · 88 % and 17 mA · 0.22 Ω - 15 mA · 0.14 Ω")
    v("timing.LightOn", e.t_on, "s", "√(2 · 15 mA · 1 µs · 1.305 A/µs) = 0.198 A at 0.543 A/µs")
    light = v("timing.LightSpare", e.t_on - ton, "s", "364.5 ns - 120 ns")
    m(light, "s", "as above")
    v("longest.PassThrough", Vcell - Vd - Ifull * Rwind, "V", "3.7 V - 0.45 V - 0.02 V")
    v("longest.Mean", g.I, "A", "as above")
    v("longest.SwitchDrop", g.I * Rsw, "V", "0.887 A · 0.14 Ω")
    v("longest.RectifierDrop", Vd, "V", "the diode's")
    v("longest.WindingDrop", g.I * Rwind, "V", "0.887 A · 0.08 Ω")
    v("longest.OnVoltage", g.on, "V", "as above")
    v("longest.OffVoltage", g.off, "V", "12.108 V + 0.45 V + 0.071 V - 3.7 V")
    v("longest.Ideal", 1 - Vcell / Vout, "1", "1 - 3.7/12.108")
    v("longest.Duty", duty, "1", "as above")
    m(D("0.85") - duty, "1", "85 % - 71.81 %")

    # Output capacitor.
    step = v("Istep", D("0.2"), "A", given)
    # A duty that rises takes I from the output at once and adds (on + off)/L
    # to the current's slope, of which 1 - duty arrives: equal at this frequency.
    zero = (g.on + g.off) * (1 - duty) / (2 * pi * L * g.I)
    crossover = v("need.Crossover", min(zero / 3, f / 10), "Hz", "a third of 92.49 kHz, less than 100 kHz")
    loop_charge = step / (2 * pi * crossover)
    before = Stage(Vcell, Vout, f, L, Ifull - step)
    rise = L * (g.I - before.I) / g.on
    under = Ifull * rise
    over = L * (g.I - (Ifull - step)) ** 2 / (2 * g.off)
    v("need.ForUndershoot", max(loop_charge, under) / D("0.4"), "F", "0.2 A/(2π · 30.83 kHz)/0.4 V")
    v("need.ForOvershoot", max(loop_charge, over) / D("0.4"), "F", "the same")
    v("need.Capacitance", max(loop_charge, under, over) / D("0.4"), "F", "the same")
    v("need.ESR", D("0.4") / step, "Ω", "0.4 V/0.2 A")
    Cout, esr = v("Cout", s["Cout"], "F", given + ": 14 µF, nominal of ±20 %"), D("0.002")
    v("step.Zero", zero, "Hz", "12.43 V · 28.19 %/(2π · 6.8 µH · 0.887 A)")
    v("step.Crossover", crossover, "Hz", "as above")
    v("step.LoopCharge", loop_charge, "C", "0.2 A/(2π · 30.83 kHz)")
    v("step.RiseTime", rise, "s", "6.8 µH · (0.887 A - 0.171 A)/3.505 V")
    v("step.LeastUnder", under, "C", "0.25 A for 1.389 µs")
    v("step.LeastOver", over, "C", "a triangle of 0.837 A that falls at 1.313 A/µs")
    jump = v("step.Jump", step * esr, "V", "0.2 A · 2 mΩ")
    v("step.LeastSag", under / Cout, "V", "347.2 nC/14 µF")
    sag = v("step.Undershoot", jump + max(loop_charge, under) / Cout, "V", "0.4 mV + 1.032 µC/14 µF")
    v("step.Overshoot", jump + max(loop_charge, over) / Cout, "V", "the same")
    out_rms = v("swing.RMS", out_square.sqrt(), "A", "as above")
    v("swing.UsualRMS", Ifull * (duty / (1 - duty)).sqrt(), "A", "0.25 A · √(0.7181/0.2819)")
    assert g.low > Ifull  # the capacitor gives while the switch is on, and only then
    charge = v("swing.Charge", Ifull * g.t_on, "C", "0.25 A for 718.1 ns")
    capacitive = v("swing.Capacitive", charge / Cout, "V", "179.5 nC/14 µF")
    resistive = v("swing.Resistive", g.high * esr, "V", "1.072 A · 2 mΩ")
    v("swing.Total", capacitive + resistive, "V", "the sum")
    v("swing.Heat", out_square * esr, "W", "(0.403 A)² · 2 mΩ")
    m(Vout - sag - capacitive - resistive - D("10.8"), "V", "12.108 V - 74.1 mV - 15 mV - 10.8 V")
    m(D("1.5") - out_rms, "A", "1.5 A - 0.403 A")

    # Losses. What only a missing part would lose is 0.
    v("diode.Average", Ifull, "A", "the load")
    v("diode.RMS", g.rectifier_square.sqrt(), "A", "as above")
    v("diode.Peak", g.high, "A", "as above")
    reverse = v("diode.Reverse", Vout * D("1.3"), "V", "12.108 V and 30 %")
    reserve = v("diode.ReverseMargin", 30 - reverse, "V", "30 V - 15.74 V")
    v("diode.SwitchVoltage", (Vout + Vd) * D("1.3"), "V", "12.558 V and 30 %")
    forward = v("diode.Forward", Vd * Ifull, "W", "0.45 V · 0.25 A")
    back = v("diode.Reversed", D("0.3e-3") * Vout * g.t_on / g.T, "W", "0.3 mA at 12.108 V for 71.81 % of the time")
    heat = v("diode.Heat", forward + back, "W", "the sum")
    in_switch = v("loss.SwitchConduction", Rsw * g.switch_square, "W", "0.14 Ω · (0.757 A)²")
    v("loss.RectifierConduction", ZERO, "W", "a diode has no resistance here")
    v("loss.Diode", heat, "W", "as above")
    edge = D("8e-9")
    switching = v("loss.Switching", (Vout + Vd) * (g.low + g.high) / 2 * edge * f, "W", "12.558 V · (0.702 A + 1.072 A)/2 · 8 ns · 1 MHz")
    node = v("loss.Node", D("120e-12") * Vout * Vout * f / 2, "W", "120 pF · (12.108 V)² · 1 MHz/2")
    v("loss.Recovery", ZERO, "W", "not given")
    v("loss.DeadTime", ZERO, "W", "not given")
    gate = v("loss.Gate", D("3e-9") * Vcell * f, "W", "3 nC · 3.7 V · 1 MHz")
    idle = v("loss.Quiescent", Vcell * D("300e-6"), "W", "3.7 V · 300 µA")
    regulator = v("loss.Regulator", in_switch + switching + node + gate + idle, "W", "the sum of these but the diode")
    v("loss.Sense", ZERO, "W", "no such resistor")
    winding = v("loss.Winding", Rwind * g.square, "W", "0.08 Ω · (0.893 A)²")
    core = v("loss.Core", D("0.015"), "W", given)
    v("loss.Inductor", winding + core, "W", "the sum")
    capacitors = v("loss.Capacitors", out_square * esr, "W", "as the ripple's heat")
    total = v("loss.Total", regulator + heat + winding + core + capacitors, "W", "the sum")
    power = v("loss.OutputPower", Vout * Ifull, "W", "12.108 V · 0.25 A")
    v("loss.InputPower", power + total, "W", "3.027 W + 0.385 W")
    v("loss.InputCurrent", (power + total) / Vcell, "A", "3.412 W/3.7 V")
    eta = v("loss.Efficiency", power / (power + total), "1", "3.027/3.412")
    Tj = v("Tj", Ta + regulator * theta, "K", "298.15 K + 190.3 mW · 90 K/W")
    Td = v("Td", Ta + heat * theta_d, "K", "298.15 K + 115.1 mW · 80 K/W")
    m(reserve - 6, "V", "14.26 V - 6 V")
    m(110 + zero_celsius - Tj, "K", "110 °C - 42.1 °C")
    m(110 + zero_celsius - Td, "K", "110 °C - 34.2 °C")
    m(eta - D("0.75"), "1", "88.73 % - 75 %")

    # Plugging in: a step on resistance, inductance and capacitance.
    R = v("Rpath", D("0.2"), "Ω", given)
    drive = v("plugged.Step", D("4.2") - D("0.3"), "V", "4.2 V - 0.3 V")
    Z = v("plugged.Characteristic", (L / Cout).sqrt(), "Ω", "√(6.8 µH/14 µF)")
    damping = v("plugged.Damping", R / (2 * Z), "1", "0.2 Ω/(2 · 0.697 Ω)")
    v("plugged.Settled", drive, "V", "the same")
    v("plugged.UndampedPeak", drive / Z, "A", "3.9 V/0.697 Ω")
    v("plugged.UndampedOutput", 2 * drive, "V", "a capacitor without loss swings to twice the step")
    decay = float(R / (2 * L))
    ring = sqrt(float(1 / (L * Cout)) - decay * decay)
    # i = step/(L · ring) · e^(-decay · t) · sin(ring · t) is largest where tan(ring · t) = ring/decay.
    when = acos(float(damping)) / ring
    current = float(drive / L) / ring * exp(-decay * when) * sqrt(1 - float(damping) ** 2)
    v("plugged.Peak", D(current), "A", "the damped sine at a quarter of its period, nearly")
    highest = v("plugged.HighestOutput", drive * D(1 + exp(-decay * PI_FLOAT / ring)), "V", "half a period of the ringing later, when the diode blocks")
    v("plugged.PeakTime", D(when), "s", "82° of 98.5 krad/s")
    surge = v("Isurge", D(25), "A", given)
    m(surge - drive / R, "A", "25 A - 3.9 V/0.2 Ω")
    m(D("12.6") - highest, "V", "12.6 V - 6.373 V")


t.run(note)


def limits(line, margin, at):
    s = {name: dec(x) for name, x in at.items()}

    def v(name, x, unit, how):
        line(name, F(x), unit, how)
        return x

    Vcell, f, L, Vout = s["Vcell"], s["fsw"], s["L"], output(s)
    g = Stage(Vcell, Vout, f, L, Ifull)
    Ilim = v("Ilim", s["Ilim"], "A", "given: typical of 1.8 A, 2.1 A, 2.4 A")
    Isat = v("Isat", D("2.7"), "A", "given")
    v("limit.Peak", g.high, "A", "as above")
    v("limit.PeakMargin", Ilim - g.high, "A", "2.1 A - 1.072 A")

    def share(mean):
        """Of the time for which the rectifier conducts, at a mean current."""
        on = Vcell - mean * (Rsw + Rwind)
        return on / (Vout + Vd - mean * Rsw)

    def peak(mean):
        on = Vcell - mean * (Rsw + Rwind)
        return mean + on * (1 - share(mean)) / (L * f) / 2

    mean = v("limit.MostMean", halving(lambda x: peak(x) - Ilim, D(1), Ilim), "A", "with half a ripple of 0.177 A it is 2.1 A")
    most = v("limit.MostLoad", mean * share(mean), "A", "26.67 % of 1.923 A")
    least = v("limit.LeastInput", halving(lambda x: Ilim - Stage(x, Vout, f, L, Ifull).high, D("1.66"), D(3)), "V", "there the peak of 0.25 A at the output is 2.1 A")
    over = v("limit.Overrun", Vcell * D("80e-9") / L, "A", "3.7 V/6.8 µH for 80 ns")
    v("limit.LargestPeak", Ilim + over, "A", "2.1 A + 0.044 A")
    spare = v("limit.SaturationMargin", Isat - Ilim - over, "A", "2.7 A - 2.144 A")
    v("limit.SaturationShare", spare / Isat, "1", "of 2.7 A")
    margin(F(most - Ifull), "A", "0.513 A - 0.25 A")
    margin(F(3 - least), "V", "3 V - 1.974 V")
    margin(F(spare), "A", "as above")


u.run(limits)

# In the note's order: two requirements up to the currents, those of the limit,
# the rest.
merged, order = {}, 0
first = [name for name in t.lines if name.startswith("requirement")]
for table, names in ((t, first[:2]), (u, [n for n in u.lines if n.startswith("requirement")]), (t, first[2:])):
    for name in names:
        order += 1
        merged[f"requirement {order}"] = (table.lines[name], table.low[name], table.high[name])
for table in (t, u):
    for name, x in table.lines.items():
        if not name.startswith("requirement"):
            merged[name] = (x, table.low[name], table.high[name])
t.lines, t.low, t.high = ({name: x[k] for name, x in merged.items()} for k in range(3))
t.write(spread={
    "full.Conduction", "longest.RectifierDrop", "diode.Forward", "loss.RectifierConduction", "loss.Recovery", "loss.DeadTime", "loss.Sense",
})
