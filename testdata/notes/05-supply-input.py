"""Every value of the note 05-supply-input, computed from Ohm's and Kirchhoff's
laws, the balance of heat of a tripped fuse, the line of a clamp, and the
differential equations of a ringing circuit, with 40 decimal digits.

Every value is at its extremes at corners of its sources. The peak of plugging in
is not simple in the capacitance and the series resistance: monotone() below
holds the corners against a grid between them.
"""

from decimal import Decimal as D

from table import F, LN2, PI, Table

ZERO, ONE, TWO = D(0), D(1), D(2)
pi = D(PI.numerator) / D(PI.denominator)
ln2 = D(LN2.numerator) / D(LN2.denominator)

t = Table({
    "Vsup": ("18", "24", "32"),
    "Iin": ("0.05", "0.5", "1.5"),
    "Ta": ("-20", "25", "60"),
    "Rcable": ("0.8", "0.85", "0.95"),
    "VBR": ("40", "42.1", "44.2"),
    "Vz": ("11.4", "12", "12.6"),
    "Cin": ("4.8e-6", "6e-6", "7.2e-6"),
    "Resr": ("0.15", "0.25", "0.4"),
})

# The curves of fuse-hold.csv; the trip current is twice the hold current.
HOLD = [(-40, "3.60"), (-20, "3.25"), (0, "2.90"), (23, "2.50"), (40, "2.15"), (50, "2.00"), (60, "1.80"), (70, "1.60"), (85, "1.25")]


def dec(x):
    return D(x.numerator) / D(x.denominator)


def hold_at(T):
    """The straight line between the rows around T."""
    for (a, x), (b, y) in zip(HOLD, HOLD[1:]):
        if a <= T <= b:
            return D(x) + (D(y) - D(x)) * (T - a) / (b - a)
    raise ValueError(T)


peaks = {}


def peak(R, L, C, Cd, r):
    """The largest voltage after a step of 1 V: i' = (1 - R i - v)/L,
    v' = (i - (v - w)/r)/C, w' = (v - w)/(r Cd), from rest, by its Taylor series
    in steps that are short beside all time constants; where v' changes its sign
    in a step, its zero is found by halving."""
    key = (R, L, C, Cd, r)
    if key in peaks:
        return peaks[key]
    h = min((L * C).sqrt(), r * C, L / R) / 8
    x = [ZERO, ZERO, ZERO]
    most, time, end = ONE, ZERO, 4 * (L * (C + Cd)).sqrt()
    while time < end:
        # Coefficients of the series of each state.
        terms = [x]
        for k in range(1, 24):
            i, v, w = terms[-1]
            drive = ONE if k == 1 else ZERO
            terms.append([(drive - R * i - v) / L / k, (i - (v - w) / r) / C / k, (v - w) / (r * Cd) / k])

        def at(s, n):
            total = ZERO
            for c in reversed(terms):
                total = total * s + c[n]
            return total

        def slope(s):
            return at(s, 0) - (at(s, 1) - at(s, 2)) / r

        if slope(ZERO) > 0 >= slope(h):
            low, high = ZERO, h
            for _ in range(70):
                middle = (low + high) / 2
                low, high = (middle, high) if slope(middle) > 0 else (low, middle)
            most = max(most, at(low, 1))
        x = [at(h, n) for n in range(3)]
        time += h
    peaks[key] = most
    return most


def atan(x):
    """arctan for 0 < x, by halving the argument and the series."""
    for n in range(12):
        x = x / (1 + (1 + x * x).sqrt())
    total, power, k = ZERO, x, 0
    while abs(power) > D("1e-45"):
        total += power / (2 * k + 1)
        power *= -x * x
        k += 1
    return total * 2**12


def note(line, margin, at):
    s = {name: dec(x) for name, x in at.items()}
    zero_celsius = D("273.15")

    def v(name, x, unit, how):
        line(name, F(x), unit, how)
        return x

    def m(x, unit, how):
        margin(F(x), unit, how)

    given = "given"
    Vsup = v("Vsup", s["Vsup"], "V", given + ": usual of 18 V, 24 V, 32 V")
    Iin = v("Iin", s["Iin"], "A", given + ": usual of 50 mA, 0.5 A, 1.5 A")
    T = s["Ta"]
    v("Ta", T + zero_celsius, "K", "25 °C + 273.15 K, usual of -20 °C, 25 °C, 60 °C")
    Rcable = v("Rcable", s["Rcable"], "Ω", given + ": typical of 0.8 Ω, 0.85 Ω, 0.95 Ω")
    Vlimit = v("Vlimit", D(65), "V", given)

    # The resettable fuse.
    Ishort = v("Ishort", Vsup / Rcable, "A", "24 V/0.85 Ω")
    hold = v("fuse.HoldCurrent", hold_at(T), "A", "between 2.50 A at 23 °C and 2.15 A at 40 °C: 2.5 - 0.35 · 2/17")
    trip = v("fuse.TripCurrent", 2 * hold, "A", "twice that, by the file")
    hold_margin = v("fuse.HoldMargin", hold - Iin, "A", "2.459 A - 0.5 A")
    v("fuse.TripMargin", Ishort - trip, "A", "28.24 A - 4.918 A")
    v("fuse.VoltageMargin", 60 - Vsup, "V", "60 V - 24 V")
    v("fuse.FaultMargin", 50 - Ishort, "A", "50 A - 28.24 A")
    v("fuse.Drop", Iin * D("0.04"), "V", "0.5 A · 40 mΩ")
    v("fuse.DropAfterTrip", Iin * D("0.1"), "V", "0.5 A · 100 mΩ")
    v("fuse.LossAfterTrip", Iin * Iin * D("0.1"), "W", "(0.5 A)² · 100 mΩ")
    equivalent = v("fuse.EquivalentFault", Ishort * D("2.5") / hold, "A", "28.24 A · 2.5/2.459, as warm as 23 °C")
    time = v("fuse.TripTime", 18 / equivalent**2, "s", "18 A²s/(28.71 A)²")
    time_margin = v("fuse.TripTimeMargin", 1 - time, "s", "1 s - 21.8 ms")
    m(hold_margin - D("0.2"), "A", "1.959 A - 0.2 A")
    m(time_margin - D("0.5"), "s", "978.2 ms - 0.5 s")

    # Tripped: the power of the fuse is its cooling, to 125 °C, and 1.6 W at 23 °C.
    P = v("tripped.Cooling", D("1.6") * (125 - T) / 102, "W", "1.6 W · 100 K/102 K")
    least = v("tripped.LeastLoad", Vsup**2 / 4 / P, "Ω", "(24 V)²/(4 · 1.569 W)")
    stays = v("tripped.Margin", least - Rcable, "Ω", "91.8 Ω - 0.85 Ω")
    # (Vsup - R I) I = P, the smaller of the two currents.
    I = v("tripped.Current", (Vsup - (Vsup**2 - 4 * Rcable * P).sqrt()) / (2 * Rcable), "A", "the smaller solution of (24 V - 0.85 Ω · I) · I = 1.569 W")
    U = v("tripped.Voltage", Vsup - Rcable * I, "V", "24 V - 0.85 Ω · 65.5 mA")
    v("tripped.Resistance", U / I, "Ω", "23.94 V/65.5 mA")
    v("tripped.LoadPower", Rcable * I * I, "W", "0.85 Ω · (65.5 mA)²")
    m(D("0.15") - I, "A", "150 mA - 65.5 mA")
    m(stays, "Ω", "as above")

    # The clamp.
    VBR = s["VBR"]
    v("tvs.StandOff", D(36), "V", given)
    v("tvs.Breakdown", VBR, "V", given + ": typical of 40 V, 42.1 V, 44.2 V")
    v("tvs.Clamping", D("58.1"), "V", given)
    v("tvs.PeakCurrent", D("10.3"), "A", given)
    v("tvs.Tempco", D("0.001"), "1/K", given)
    v("tvs.Temperature", T + zero_celsius, "K", "as Ta")
    warm = v("surge.Breakdown", VBR * (1 + (T - 25) / 1000), "V", "at 25 °C as given; a thousandth per kelvin")
    RD = v("surge.DynamicResistance", (D("58.1") - VBR) / D("10.3"), "Ω", "(58.1 - 42.1) V/10.3 A")
    v("surge.Impedance", D(42), "Ω", "2 Ω + 40 Ω")
    i = v("surge.Current", (500 - warm) / (42 + RD), "A", "457.9 V/43.55 Ω")
    u = v("surge.Voltage", 500 - 42 * i, "V", "500 V - 42 Ω · 10.51 A")
    surge_margin = v("surge.Margin", Vlimit - u, "V", "65 V - 58.43 V")
    power = v("surge.Power", u * i, "W", "58.43 V · 10.51 A")
    allowed = v("surge.Allowed", 600 * D(20).sqrt() * min(ONE, (150 - T) / 125), "W", "600 W · √(1 ms/50 µs), at 25 °C the whole")
    power_margin = v("surge.PowerMargin", allowed - power, "W", "2683 W - 614 W")
    v("surge.Energy", power * D("50e-6") / ln2, "J", "614 W, an exponential to half in 50 µs")
    v("surge.Integral", i * i * D("50e-6") / ln2 / 2, "A²·s", "its square falls twice as fast: (10.51 A)² · 50 µs/(2 ln 2)")
    m(surge_margin - 3, "V", "6.568 V - 3 V")
    m(power_margin - 500, "W", "2069 W - 500 W")

    # Reverse polarity.
    Vz = v("Vz", s["Vz"], "V", given + ": 12 V, nominal of ±5 %")
    Ron = v("Ron", D("0.035"), "Ω", given)
    gate = v("reverse.Gate", min(Vsup, Vz), "V", "the zener's voltage, below the supply")
    v("reverse.GateMargin", 20 - gate, "V", "20 V - 12 V")
    drive = v("reverse.DriveMargin", gate - 10, "V", "12 V - 10 V")
    v("reverse.ClampCurrent", (Vsup - gate) / 47000, "A", "(24 - 12) V/47 kΩ")
    v("reverse.Drop", Iin * Ron, "V", "0.5 A · 35 mΩ")
    v("reverse.Output", Vsup - Iin * Ron, "V", "24 V - 17.5 mV")
    v("reverse.Loss", Iin * Iin * Ron, "W", "(0.5 A)² · 35 mΩ")
    v("reverse.StartLoss", Iin, "W", "0.5 A · 1 V, a diode's usual drop")
    v("reverse.ReverseVoltage", 2 * Vsup, "V", "24 V from outside, 24 V held inside")
    blocks = v("reverse.Margin", 100 - 2 * Vsup, "V", "100 V - 48 V")
    v("reverse.LeakageLoss", ZERO, "W", "no leakage is given")
    m(drive - 1, "V", "2 V - 1 V")
    m(blocks - 20, "V", "52 V - 20 V")

    # Plugging in.
    C = v("Cin", s["Cin"], "F", given + ": 6 µF, nominal of ±20 %")
    L = v("Llead", D("1.6e-6"), "H", given)
    R = v("Rlead", D("0.12"), "Ω", given)
    r = v("Resr", s["Resr"], "Ω", given + ": typical of 0.15 Ω, 0.25 Ω, 0.4 Ω")
    Z = v("plug.Impedance", (L / C).sqrt(), "Ω", "√(1.6 µH/6 µF)")
    v("plug.Resonance", 1 / (2 * pi * (L * C).sqrt()), "Hz", "1/(2π · √(1.6 µH · 6 µF))")
    zeta = v("plug.DampingRatio", R / (2 * Z), "1", "0.12 Ω/(2 · 0.5164 Ω)")
    root = (1 - zeta * zeta).sqrt()
    # i = Vsup/(root Z) e^(-ζx) sin(root x), largest where tan(root x) = root/ζ.
    v("plug.PeakCurrent", Vsup / Z * (-zeta * atan(root / zeta) / root).exp(), "A", "24 V/0.5164 Ω · e^(-0.1162 · 1.454/0.9932)")
    v("plug.UndampedPeak", Vsup * (1 + (-pi * zeta / root).exp()), "V", "24 V · (1 + e^(-π · 0.1162/0.9932))")
    top = v("plug.Peak", Vsup * peak(R, L, C, D("47e-6"), r), "V", "largest of the circuit's solution, by its Taylor series")
    plug_margin = v("plug.Margin", 40 - top, "V", "40 V - 24.29 V")
    energy = v("plug.Energy", (C + D("47e-6")) * Vsup**2 / 2, "J", "53 µF · (24 V)²/2")
    v("plug.Heat", energy, "J", "as much again")
    v("plug.LeastDamped", 2 * Z, "Ω", "twice the impedance")
    m(plug_margin - D("0.5"), "V", "15.71 V - 0.5 V")

    # The whole input.
    stage = {"ClampCurrent": "A", "ClampLoss": "W", "Current": "A", "Drop": "V", "Loss": "W", "Margin": "V", "Voltage": "V"}
    behind = Vsup - Iin * (Rcable + D("0.1"))
    Vreg = behind - Iin * Ron
    assert behind < warm
    for name, x, unit, how in (
        ("Current", Iin, "A", "the load"),
        ("Output", Vreg, "V", "24 V - 0.5 A · 0.985 Ω"),
        ("Loss", Iin * Iin * D("0.135"), "W", "(0.5 A)² · 135 mΩ"),
        ("Delivered", Vreg * Iin, "W", "23.51 V · 0.5 A"),
        ("Supplied", Vreg * Iin + Iin * Iin * D("0.135"), "W", "delivered and lost"),
    ):
        v("normal." + name, x, unit, how)
    for n, R1, V1, limit in ((0, D("0.1"), behind, None), (1, Ron, Vreg, Vlimit)):
        for name, x, how in (
            ("Current", Iin, "the load"), ("Drop", Iin * R1, "0.5 A in its resistance"), ("Loss", Iin * Iin * R1, "(0.5 A)² in its resistance"),
            ("Voltage", V1, "24 V less what drops up to there"), ("ClampCurrent", ZERO, "at rest"), ("ClampLoss", ZERO, "at rest"),
            ("Margin", limit - V1 if limit else ZERO, "65 V - 23.51 V" if limit else "no limit is given"),
        ):
            v(f"normal.Stages[{n}].{name}", x, "1" if name == "Margin" and not limit else stage[name], how)
    v("Vreg", Vreg, "V", "as above")
    v("Plost", Iin * Iin * D("0.135"), "W", "as above")
    Irev = v("Irev", (Vsup - 1) / (Rcable + D("0.12")), "A", "(24 - 1) V/(0.85 + 0.1 + 0.02) Ω")
    # 500 V = clamp + 42.1 Ω · (i + 50 mA), clamp = Breakdown + RD i.
    i = (500 - warm - D("42.1") * D("0.05")) / (RD + D("42.1"))
    Vstrike = v("Vstrike", warm + RD * i - D("0.05") * Ron, "V", "42.1 V + 1.553 Ω · 10.44 A - 50 mA · 35 mΩ")
    m(Vreg - D("15.5"), "V", "23.51 V - 15.5 V")
    m(Irev - trip, "A", "23.71 A - 4.918 A")
    m(Vlimit - Vstrike, "V", "65 V - 58.32 V")
    J = v("Jtrip", 18 * (hold / D("2.5")) ** 2, "A²·s", "18 A²s · (2.459/2.5)²")
    v("forward.Factor", D("0.5"), "1", "mean square of half a sine")
    v("forward.Integral", D("41.5"), "A²·s", "(100 A)²/2 · 8.3 ms")
    m(D("41.5") / D("1.2") - J, "A²·s", "34.58 A²s - 17.41 A²s")


def monotone():
    """The peak over the capacitance and the series resistance: none of a grid
    lies beyond the corners."""
    def top(C, r):
        return peak(D("0.12"), D("1.6e-6"), D(C), D("47e-6"), D(r))

    corners = [top(C, r) for C in ("4.8e-6", "7.2e-6") for r in ("0.15", "0.4")]
    for C in ("4.8e-6", "5.4e-6", "6e-6", "6.6e-6", "7.2e-6"):
        for r in ("0.15", "0.2", "0.25", "0.32", "0.4"):
            assert min(corners) <= top(C, r) <= max(corners), (C, r)


monotone()
t.run(note)
t.write(spread=("normal.Stages[0].ClampCurrent", "normal.Stages[0].ClampLoss"))
