"""Every value of the note 70-ripple, computed from Kirchhoff's laws, the
charge and the energy of capacitors, with 40 decimal digits.

The rectifier is integrated by Taylor series of its differential equation (the
sine and cosine of each place, and the recurrence of 1/v), 30 terms in steps of
a fiftieth of a turn at most; the angle at which a pulse begins is found by the
secant rule, the places of zero slope and zero current by Newton's on the
series.

Preferred values are looked up by hand in IEC 60063 (from memory):
  E6: 1.0 1.5 2.2 3.3 4.7 6.8

Every value is at its extremes at corners of its sources: each rises or falls
all the way with each of them. The error of the usual ripple, of which that is
not plain, was held against a grid of nine places of every source.
"""

from decimal import Decimal as D
from functools import lru_cache

from table import F, PI, Table


def dec(x):
    return D(x.numerator) / D(x.denominator)


pi = dec(PI)
ONE, TWO = D(1), D(2)
TERMS = 30


def sine_cosine(x):
    """By their series, the angle in radians and not large."""
    s, c, power, k = D(0), D(0), ONE, 0
    while abs(power) > D("1e-45"):
        if k % 2 == 0:
            c += power if k % 4 == 0 else -power
        else:
            s += power if k % 4 == 1 else -power
        k += 1
        power = power * x / k
    return s, c


def arccosine(y):
    """By Newton's rule from the middle."""
    x = D("0.8")
    for _ in range(12):
        s, c = sine_cosine(x)
        x += (c - y) / s
    return x


def value(series, h):
    total = D(0)
    for a in reversed(series):
        total = total * h + a
    return total


def slope(series, h):
    return value([k * a for k, a in enumerate(series)][1:], h)


def area(series, h):
    return value([D(0)] + [a / (k + 1) for k, a in enumerate(series)], h)


def product(a, b):
    return [sum(a[j] * b[k - j] for j in range(k + 1)) for k in range(len(a))]


def zero(series, near):
    """Where a series is zero, by Newton's rule."""
    h = near
    for _ in range(60):
        step = value(series, h) / slope(series, h)
        h -= step
        if abs(step) < D("1e-36"):
            break
    return h


class Rectifier:
    """A full-wave rectifier: peak of the source A, drop of the diodes d,
    resistance R, ω · capacitance B, power P. Angles from the source's peak."""

    def __init__(self, A, d, R, B, P):
        self.A, self.d, self.R, self.B, self.P = A, d, R, B, P

    def source(self, x):
        return self.A * sine_cosine(x)[1] - self.d

    def series(self, x, v0):
        """The output, the pulse's current and the load's around x."""
        s, c = sine_cosine(x)
        turn = [c, -s, -c, s]  # derivatives of the cosine
        e, factorial = [], ONE
        for k in range(TERMS):
            if k:
                factorial *= k
            e.append(self.A * turn[k % 4] / factorial - (self.d if k == 0 else 0))
        v, w, i = [v0], [], []
        for k in range(TERMS):
            w.append(1 / v0 if k == 0 else -sum(v[j] * w[k - j] for j in range(1, k + 1)) / v0)
            i.append((e[k] - v[k]) / self.R)
            v.append((i[k] - self.P * w[k]) / (self.B * (k + 1)))
        return v[:TERMS], i, [self.P * a for a in w]

    def pulse(self, start, watch=None):
        """From the angle start before the peak to where the current is zero:
        that angle and the output there."""
        x, v0, step = -start, self.source(start), pi / 25
        parts = max(2, int(start / step) + 1)
        h, n = start / parts, 0
        while True:
            if n == parts:
                x, h = D(0), step
            v, i, load = self.series(x, v0)
            last = x + h > 0 and value(i, h) <= 0
            if last:
                h = zero(i, h)
            if watch:
                watch(x, h, v, i, load)
            x, v0, n = x + h, value(v, h), n + 1
            if last:
                return x, v0

    def next_start(self, end, v):
        """Where the source meets the output that the load has discharged:
        its square falls on a straight line."""
        start = D("0.3")
        for _ in range(60):
            left = (v * v - 2 * self.P * (pi - start - end) / self.B).sqrt()
            s, c = sine_cosine(start)
            gap = self.A * c - self.d - left
            step = gap / (-self.A * s - self.P / (self.B * left))
            start -= step
            if abs(step) < D("1e-36"):
                break
        return start

    def solve(self):
        def excess(start):
            return self.next_start(*self.pulse(start)) - start

        a, b = D("0.3"), D("0.31")
        fa, fb = excess(a), excess(b)
        for _ in range(40):
            c = b - fb * (b - a) / (fb - fa)
            a, fa = b, fb
            b, fb = c, excess(c)
            if abs(fb) < D("1e-33"):
                break
        self.start = b
        self.measure()
        return self

    def measure(self):
        self.peak, self.valley, self.highest = D(0), self.source(self.start), D(0)
        self.sums = [D(0)] * 4  # output, pulse, its square, the reservoir's square

        def watch(x, h, v, i, load):
            charge = [a - b for a, b in zip(i, load)]
            for k, s in enumerate((v, i, product(i, i), product(charge, charge))):
                self.sums[k] += area(s, h)
            places = [D(0), h]
            for s in (charge, [(k + 1) * a for k, a in enumerate(i[1:])]):
                if (value(s, D(0)) < 0) != (value(s, h) < 0):
                    places.append(zero(s, h / 2))
            for at in places:
                self.peak, self.valley = max(self.peak, value(v, at)), min(self.valley, value(v, at))
                self.highest = max(self.highest, value(i, at))

        self.end, v = self.pulse(self.start, watch)
        left = self.source(self.start)
        # While the load alone discharges: v dv = −P/B dx.
        self.mean = (self.sums[0] + self.B * (v**3 - left**3) / (3 * self.P)) / pi
        self.average = self.sums[1] / pi
        self.rms = (self.sums[2] / pi).sqrt()
        self.reservoir = ((self.sums[3] + self.B * self.P * (v / left).ln()) / pi).sqrt()


@lru_cache(maxsize=None)
def rectifier(A, d, R, B, P):
    return Rectifier(A, d, R, B, P).solve()


t = Table({
    "Vac": ("24.3", "27", "29.7"),
    "Rsrc": ("1.44", "1.8", "2.16"),
    "Pout": ("0.75", "3", "7.5"),
    "C": ("3.76e-3", "4.7e-3", "5.64e-3"),
    "Ta": ("-20", "30", "60"),
})


def note(put, margin, s):
    def v(name, x, unit, how):
        put(name, x, unit, how)
        return x

    s = {name: dec(x) for name, x in s.items()}
    celsius = D("273.15")
    Vac = v("Vac", s["Vac"], "V", "given: usual of 24.3 V, 27 V, 29.7 V")
    f = v("fac", D(50), "Hz", "given")
    R = v("Rsrc", s["Rsrc"], "Ω", "given: nominal of ±20 %")
    Vf = v("Vf", D("0.9"), "V", "given")
    Pout = v("Pout", s["Pout"], "W", "given: usual of 0.75 W, 3 W, 7.5 W")
    eta = v("η", D("0.88"), "1", "given: 88 %")
    stop = v("Vstop", D(15), "V", "given")
    Ta = v("Ta", s["Ta"] + celsius, "K", "30 °C + 273.15 K, usual of -20 °C, 30 °C, 60 °C")

    # The reservoir: P t = C (V1² - V2²)/2, and the mean current C (V1 - V2)/t.
    needed = 2 * D("7.5") / eta * D("0.04") / (D(24) ** 2 - stop**2)
    v("need.MeanCurrent", needed * (24 - stop) / D("0.04"), "A", "1.943 mF · 9 V/40 ms")
    v("need.Needed", needed, "F", "2 · 7.5 W/0.88 · 40 ms/((24 V)² - (15 V)²)")
    v("need.Kept", D("0.576"), "1", "0.8 · 0.9 · 0.8")
    v("need.Printed", needed / D("0.576"), "F", "1.943 mF/0.576; E6 has 3.3 and 4.7 mF there, at least that is 4.7")
    C = v("C", s["C"], "F", "nominal of 4.7 mF ± 20 %")

    A = v("dc.Amplitude", TWO.sqrt() * Vac, "V", "√2 · 27 V")
    drop = v("dc.Drop", 2 * Vf, "V", "two diodes of a bridge")
    w, P = 2 * pi * f, Pout / eta
    r = rectifier(A, drop, R, w * C, P)
    v("dc.Start", r.start, "rad", "a period ends as it began: secant rule on the integrated pulse")
    v("dc.End", r.end, "rad", "where the pulse's current is zero")
    v("dc.ConductionTime", (r.start + r.end) / w, "s", "(0.2878 + 0.2716)/(2π · 50 Hz)")
    v("dc.Peak", r.peak, "V", "largest of the output")
    valley = v("dc.Valley", r.valley, "V", "least of the output")
    v("dc.Ripple", r.peak - r.valley, "V", "their difference")
    v("dc.Mean", r.mean, "V", "integrated")
    average = v("dc.LoadCurrent", r.average, "A", "of the pulses, integrated: the reservoir keeps nothing")
    v("dc.PulsePeak", r.highest, "A", "largest of the pulse")
    rms = v("dc.PulseRMS", r.rms, "A", "integrated")
    v("dc.DiodeAverage", average / 2, "A", "every second pulse")
    v("dc.DiodeRMS", rms / TWO.sqrt(), "A", "every second pulse")
    v("dc.SourceRMS", rms, "A", "every pulse")
    reservoir = v("dc.CapacitorRMS", r.reservoir, "A", "integrated, the discharge C · P · ln of the voltages")
    v("dc.Reverse", A - Vf, "V", "38.18 V - 0.9 V: source against the diode that conducts")
    v("dc.DiodeLoss", drop * average, "W", "1.8 V · 97.7 mA")
    v("dc.ResistanceLoss", R * rms * rms, "W", "1.8 Ω · (253.7 mA)²")
    atpeak = P / (A - drop)
    usual = v("dc.UsualRipple", atpeak / (2 * f * C), "V", "3.409 W/36.38 V over 2 · 50 Hz · 4.7 mF")
    v("dc.UsualRippleError", usual / (r.peak - r.valley) - 1, "1", "199.4 mV/172 mV - 1")
    v("dc.UsualPulsePeak", atpeak * (1 + pi * (2 * A / usual).sqrt()), "A", "93.7 mA · (1 + π · √(2 · 38.18 V/199.4 mV))")

    v("held.Taken", P, "W", "3 W/0.88")
    old = D("0.72") * C
    v("held.MeanCurrent", 2 * P / (valley + stop), "A", "twice the power over 34.81 V + 15 V")
    energy = v("held.Energy", old * (valley**2 - stop**2) / 2, "J", "0.72 · 4.7 mF · ((34.81 V)² - (15 V)²)/2")
    held = v("held.Time", energy / P, "s", "1.67 J/3.409 W")

    peak = v("on.Peak", A - drop, "V", "38.18 V - 1.8 V")
    current = v("on.Current", peak / R, "A", "36.38 V/1.8 Ω")
    v("on.TimeConstant", R * C, "s", "1.8 Ω · 4.7 mF")
    stored = v("on.Energy", C * peak**2 / 2, "J", "4.7 mF · (36.38 V)²/2")
    square = v("on.SquareTime", stored / R, "A²·s", "3.111 J/1.8 Ω")

    # Between 50 and 120 Hz, and 10 kHz and 1 MHz, on logarithmic axes.
    first = D("0.8") + D("0.2") * (D(100) / 50).ln() / (D(120) / 50).ln()
    second = D("1.4") + D("0.1") * (D(400000) / 10000).ln() / (D(1000000) / 10000).ln()
    v("heats.Total", (reservoir**2 + D("0.35") ** 2).sqrt(), "A", "√((234.1 mA)² + (350 mA)²)")
    v("heats.Multipliers[0]", first, "1", "0.8 + 0.2 · ln 2/ln 2.4")
    v("heats.Multipliers[1]", second, "1", "1.4 + 0.1 · ln 40/ln 100")
    same = v("heats.Equivalent", ((reservoir / first) ** 2 + (D("0.35") / second) ** 2).sqrt(), "A", "√((234.1 mA/0.9583)² + (350 mA/1.48)²)")

    rise = v("life.Rise", 5 * (same / D("2.4")) ** 2, "K", "5 K · (340 mA/2.4 A)²")
    v("life.Core", Ta + rise, "K", "303.15 K + 0.1 K")
    counted = v("life.Counted", max(Ta, 40 + celsius), "K", "no lower than 40 °C")
    warm = v("life.TemperatureFactor", TWO ** ((105 + celsius - counted) / 10), "1", "2^(65 K/10 K)")
    ripple = v("life.RippleFactor", TWO ** ((5 - rise) / 10), "1", "2^(4.9 K/10 K)")
    v("life.VoltageShare", ONE, "1", "not counted")
    v("life.VoltageFactor", ONE, "1", "not counted")
    computed = v("life.Computed", D(5000 * 3600) * warm * ripple, "s", "5000 h · 90.51 · 1.404")
    years = D(15 * 8766 * 3600)
    life = v("life.Life", min(computed, years), "s", "no longer than 15 years")
    v("life.CoreMargin", 110 + celsius - Ta - rise, "K", "110 °C - 30.1 °C")

    v("out.Printed", D("1e-5"), "F", "one of 10 µF")
    share = v("out.BiasShare", D("0.64") - D("0.13") * D("0.465"), "1", "64 % less 0.465 of 13 %")
    v("out.TemperatureLoss", D("0.15"), "1", "X5R: ±15 %")
    v("out.TemperatureGain", D("0.15"), "1", "X5R: ±15 %")
    decades = v("out.Decades", D(87660).log10(), "1", "lg 87660")
    age = v("out.AgeShare", 1 - D("0.03") * decades, "1", "1 - 3 % · 4.943")
    left = v("out.Usual", D("1e-5") * share * age, "F", "10 µF · 0.5796 · 0.8517")
    least = v("out.Least", left * D("0.8") * D("0.85"), "F", "4.936 µF · 0.8 · 0.85")
    v("out.Most", D("1e-5") * share * D("1.2") * D("1.15"), "F", "10 µF · 0.5796 · 1.2 · 1.15")
    v("out.LeastShare", least / D("1e-5"), "1", "3.357 µF/10 µF")
    v("out.Missing", D("1e-5") - least, "F", "10 µF - 3.357 µF")

    margin(valley - 24, "V", "34.81 V - 24 V")
    margin(45 - r.peak, "V", "45 V - 34.98 V")
    margin(D("1.67") - rms, "A", "1.67 A - 253.7 mA")
    margin(D("0.5") - average / 2, "A", "0.5 A - 48.8 mA")
    margin(held - D("0.04"), "s", "489.8 ms - 40 ms")
    margin(50 - current, "A", "50 A - 20.2 A")
    margin(10 - square, "A²·s", "10 A²s - 1.73 A²s")
    margin(life - D(10 * 8766 * 3600), "s", "131490 h - 87660 h")
    margin(D("2.4") - same, "A", "2.4 A - 340 mA")
    margin(least - D("2.2e-6"), "F", "3.357 µF - 2.2 µF")


t.run(note)
t.write(spread={"life.Life", "requirement 8"})
