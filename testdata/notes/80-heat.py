"""Every value of the note 80-heat, computed from conduction, convection and
radiation with 40 decimal digits.

The plate's temperature and that of the diode are found by halving. The rise of
a disc goes as the modified Bessel functions, summed here from their series:
  I0(x) = sum of (x/2)^2k/k!^2,  I1(x) = sum of (x/2)^(2k+1)/(k! (k+1)!)
  K0(x) = -(ln(x/2) + g) I0(x) + sum of (x/2)^2k/k!^2 * (1 + 1/2 + ... + 1/k)
and K1 from I0(x) K1(x) + I1(x) K0(x) = 1/x, with Euler's constant g.

Every value is at its extremes at corners of its sources: hotter air, more
current, more resistance, more heat of the neighbour and less transfer are each
worse all the way. What the plate gives away grows with the temperature of the
air around it all the way too: radiation gains more than convection loses.
"""

from decimal import Decimal as D
from functools import cache

from table import F, PI, Table

pi = D(PI.numerator) / D(PI.denominator)
euler = D("0.57721566490153286060651209008240243104215933593992")
ZERO = D("273.15")

t = Table({
    "Tair": ("-20", "25", "60"),
    "Preg": ("0.1", "0.25", "0.7"),
    "Ipull": ("3.2", "4", "5"),
    "Ron": ("0.096", "0.12", "0.144"),
    "kair": ("0.75", "1", "1.25"),
})


def dec(x):
    return D(x.numerator) / D(x.denominator)


def power(x, y):
    return (y * x.ln()).exp()


def halve(low, high, rises):
    """Where a function that rises passes through zero."""
    for _ in range(110):
        middle = (low + high) / 2
        low, high = (middle, high) if rises(middle) < 0 else (low, middle)
    return (low + high) / 2


@cache
def bessels(x):
    half = x * x / 4
    i0 = i1 = k0 = D(0)
    term, harmonic = D(1), D(0)
    for k in range(60):
        i0 += term
        i1 += term * x / 2 / (k + 1)
        k0 += term * harmonic
        term *= half / ((k + 1) * (k + 1))
        harmonic += D(1) / (k + 1)
    k0 -= ((x / 2).ln() + euler) * i0
    return i0, i1, k0, (1 / x - i1 * k0) / i0


def air(T):
    """Conductivity, kinematic viscosity and diffusivity at 101.325 kPa: U.S. Standard Atmosphere, 1976."""
    k = D("2.64638e-3") * power(T, D("1.5")) / (T + D("245.4") * power(D(10), -12 / T))
    mu = D("1.458e-6") * power(T, D("1.5")) / (T + D("110.4"))
    rho = D(101325) / (D("287.053") * T)
    return k, mu / rho, k / (rho * 1007)


HEIGHT, FACES = D("0.08"), 2 * D("0.08") * D("0.1")


def plate(Ts, Ta):
    T = (Ts + Ta) / 2
    k, nu, alpha = air(T)
    Ra = D("9.80665") / T * (Ts - Ta) * HEIGHT**3 / (nu * alpha)
    falls = power(1 + power(D("0.492") * alpha / nu, D(9) / 16), D(8) / 27)
    Nu = (D("0.825") + D("0.387") * power(Ra, D(1) / 6) / falls) ** 2
    conv = Nu * k / HEIGHT
    rad = D("0.9") * D("5.670374419e-8") * (Ts**4 - Ta**4) / (Ts - Ta)
    return T, Ra, Nu, conv, rad, (conv + rad) * FACES * (Ts - Ta)


@cache
def still(Ta):
    return halve(Ta + D("1e-9"), Ta + 200, lambda Ts: plate(Ts, Ta)[5] - D("1.5"))


def note(line, margin, at):
    s = {name: dec(x) for name, x in at.items()}

    def v(name, x, unit, how):
        line(name, F(x) if not isinstance(x, int) else F(str(x)), unit, how)
        return x

    def m(x, unit, how):
        margin(F(x), unit, how)

    given = "given"
    Ta = v("Tair", s["Tair"] + ZERO, "K", "25 °C + 273.15 K, usual of -20 °C, 25 °C, 60 °C")
    Preg = v("Preg", s["Preg"], "W", given + ": usual of 0.1 W, 0.25 W, 0.7 W")
    Ipull = v("Ipull", s["Ipull"], "A", given + ": usual of 3.2 A, 4 A, 5 A")
    tp = v("tpull", D("0.06"), "s", given)
    T = v("Tdose", D(1), "s", given)
    Ron = v("Ron", s["Ron"], "Ω", given + ": typical of 96 mΩ, 120 mΩ, 144 mΩ")
    a = v("αon", D("0.0045"), "1/K", given + ": 0.45 %/K")
    Tjmax = v("Tjmax", 150 + ZERO, "K", "150 °C + 273.15 K")

    # The plate.
    P = v("Pall", D("1.5"), "W", given)
    kair = v("kair", s["kair"], "1", given + ": typical of 0.75, 1, 1.25")
    Ts = still(Ta)
    film, Ra, Nu, conv, rad, _ = plate(Ts, Ta)
    v("still.Surface", Ts, "K", "where 2 · 80 mm · 100 mm give 1.5 W, by halving")
    v("still.Film", film, "K", "half way from 25 °C to 34.32 °C")
    v("still.Rayleigh", Ra, "1", "9.80665 m/s²/302.8 K · 9.32 K · (80 mm)³/(15.97e-6 m²/s · 22.6e-6 m²/s)")
    v("still.Nusselt", Nu, "1", "(0.825 + 0.387 · 429700^(1/6)/1.1929)²")
    v("still.Convection", conv, "W/(m²·K)", "13.27 · 26.47 mW/(m·K)/80 mm")
    v("still.Radiation", rad, "W/(m²·K)", "0.9 · σ · (307.47⁴ - 298.15⁴)/9.32")
    h = v("still.Transfer", conv + rad, "W/(m²·K)", "4.390 + 5.669")
    v("still.Power", P, "W", "all of it")
    v("still.Resistance", (Ts - Ta) / P, "K/W", "9.32 K/1.5 W")
    h = v("hair", h * kair, "W/(m²·K)", "10.06 · 1")

    # The disc of copper in a disc of board.
    pad, area, board = D("12e-6"), D("6e-4"), D("80e-4")
    for name, x, unit in (("Pad", pad, "m²"), ("Area", area, "m²"), ("Copper", D("70e-6"), "m"), ("Board", board, "m²"), ("Thickness", D("1.6e-3"), "m")):
        v("island." + name, x, unit, given)
    v("island.Transfer", h, "W/(m²·K)", "as above")
    v("island.CopperConducts", D(0), "1", "not given")
    v("island.BoardConducts", D(0), "1", "not given")
    rp = v("copper.PadRadius", (pad / pi).sqrt(), "m", "√(12 mm²/π)")
    rc = v("copper.CopperRadius", (area / pi).sqrt(), "m", "√(6 cm²/π)")
    rb = v("copper.BoardRadius", (board / pi).sqrt(), "m", "√(80 cm²/π)")
    inner = v("copper.Sheet", 385 * D("70e-6") + D("0.8") * D("1.6e-3"), "W/K", "385 · 70 µm + 0.8 · 1.6 mm")
    outer = v("copper.BareSheet", D("0.8") * D("1.6e-3"), "W/K", "0.8 W/(m·K) · 1.6 mm")
    mi, mo = (2 * h / inner).sqrt(), (2 * h / outer).sqrt()
    # Beyond the copper: rise = c I0 + d K0 without slope at the board's edge.
    i0, i1, k0, k1 = bessels(mo * rb)
    c, d = k1, i1

    def bare(r):
        i0, i1, k0, k1 = bessels(mo * r)
        return c * i0 + d * k0, mo * (c * i1 - d * k1)

    # On the copper: rise = e I0 + f K0 of the same rise and heat where it ends.
    rise, slope = bare(rc)
    slope *= outer / inner
    i0, i1, k0, k1 = bessels(mi * rc)
    # e i0 + f k0 = rise, e i1 - f k1 = slope/mi; the determinant is -1/(mi rc).
    e = (rise * k1 + slope / mi * k0) * mi * rc
    f = (rise * i1 - slope / mi * i0) * mi * rc

    def on_copper(r):
        i0, i1, k0, k1 = bessels(mi * r)
        return e * i0 + f * k0, mi * (e * i1 - f * k1)

    top, falls = on_copper(rp)
    heat = -2 * pi * rp * inner * falls + 2 * h * pad * top
    R = v("copper.Resistance", top / heat, "K/W", "rise of the pad over heat into the ring and from the pad itself")
    ideal = v("copper.Ideal", 1 / (2 * h * board), "K/W", "1/(2 · 10.06 W/(m²·K) · 80 cm²)")
    v("copper.Efficiency", ideal / R, "1", "6.213/42.66")
    v("copper.CopperEdge", rise / top, "1", "rise there over that of the pad")
    v("copper.BoardEdge", bare(rb)[0] / top, "1", "rise there over that of the pad")
    across = v("across", bare(D("0.04"))[0] / heat, "K/W", "rise at 40 mm over the heat")

    barrel = v("vias.Barrel", pi * D("20e-6") * D("280e-6"), "m²", "π · 20 µm · 280 µm")
    one = v("vias.One", D("1.6e-3") / (385 * barrel), "K/W", "1.6 mm/(385 W/(m·K) · 17593 µm²)")
    v("vias.All", one / 9, "K/W", "236.2 K/W/9")
    laminate = v("vias.Laminate", D("1.6e-3") / (D("0.3") * (pad - 9 * pi * D("0.3e-3") ** 2 / 4)), "K/W", "1.6 mm/(0.3 W/(m·K) · (12 mm² - 9 · 0.0707 mm²))")
    through = v("vias.Resistance", 1 / (9 / one + 1 / laminate), "K/W", "26.25 and 469.3 K/W in parallel")
    m(30 - through, "K/W", "30 - 24.86")

    # The driver.
    stages = ((D("1.5"), D("0.6e-3")), (D(5), D("7e-3")), (D(8), D("90e-3")))
    for i, (r, tau) in enumerate(stages):
        v(f"zth.Stages[{i}].Resistance", r, "K/W", given)
        v(f"zth.Stages[{i}].TimeConstant", tau, "s", given)
        v(f"zth.Stages[{i}].Capacitance", D(0), "1", "not given")
    v("zth.KnownTime", D("0.01"), "s", given)
    v("zth.KnownImpedance", D("6.2"), "K/W", given)
    Rjp = v("θjp", D("14.5"), "K/W", given)
    duty = v("duty", tp / T, "1", "60 ms/1 s")
    Pcold = v("Pcold", duty * Ipull * Ipull * Ron, "W", "0.06 · (4 A)² · 120 mΩ")
    around, whole, limit, T25 = Ta + Preg * across, Rjp + R, Tjmax - 25, 25 + ZERO
    gain = v("rest.Gain", whole * Pcold * a, "1", "57.16 K/W · 115.2 mW · 0.45 %/K")
    cold = v("rest.Cold", Pcold * (1 + a * (around - T25)), "W", "115.2 mW, 0.2 K above 25 °C")
    # T = around + whole · loss(T), a straight line in T.
    settled = (around + whole * Pcold * (1 - a * T25)) / (1 - gain)
    v("rest.Rise", settled - around, "K", "57.16 K/W · 115.3 mW/(1 - 0.02963)")
    v("rest.Junction", settled, "K", "298.35 K + 6.79 K")
    loss = v("rest.Heat", Pcold * (1 + a * (settled - T25)), "W", "115.2 mW at 32 °C")
    v("rest.Margin", limit - settled, "K", "125 °C - 32 °C")
    v("rest.RunawayThermal", 1 / (Pcold * a), "K/W", "1/(115.2 mW · 0.45 %/K)")
    v("rest.AmbientMargin", limit - whole * Pcold * (1 + a * (limit - T25)) - around, "K", "125 °C less 57.16 K/W · 167 mW, less 25.2 °C")
    v("rest.LargestLoss", (limit - around) / whole / (1 + a * (limit - T25)), "W", "99.8 K/57.16 K/W/1.45")
    m(D("0.5") - gain, "1", "0.5 - 0.0296")
    m(limit - settled, "K", "125 °C - 32 °C")

    # The pulses.
    Tpeak = v("Tpeak", Tjmax - 15, "K", "150 °C - 15 K")
    Tpad = v("Tpad", settled - loss * Rjp, "K", "32 °C - 118.8 mW · 14.5 K/W")
    Pp = v("Ppull", Ipull * Ipull * Ron * (1 + a * (Tpeak - T25)), "W", "(4 A)² · 120 mΩ · 1.495")
    # The rise of a stage just before a pulse is what is left of that after the last one.
    high = low = D(0)
    for r, tau in stages:
        heats, cools = 1 - (-tp / tau).exp(), (-(T - tp) / tau).exp()
        peak = r * heats / (1 - (1 - heats) * cools)
        high += peak
        low += peak * cools
    v("pulses.Duty", duty, "1", "60 ms/1 s")
    v("pulses.Steady", Rjp, "K/W", "1.5 + 5 + 8")
    v("pulses.Highest", high, "K/W", "each stage from valley to peak and back in one period")
    v("pulses.Lowest", low, "K/W", "what is left of it after 0.94 s")
    mean = v("pulses.MeanPower", Pp * duty, "W", "2.870 W · 0.06")
    v("pulses.Mean", Tpad + mean * Rjp, "K", "303.42 K + 172 mW · 14.5 K/W")
    peak = v("pulses.Peak", Tpad + Pp * high, "K", "303.42 K + 2.870 W · 10.39 K/W")
    v("pulses.Valley", Tpad + Pp * low, "K", "303.42 K + 2.870 W · 113 µK/W")
    swing = v("pulses.Swing", Pp * (high - low), "K", "from valley to peak")
    m(Tpeak - peak, "K", "135 °C - 60.1 °C")
    m(60 - swing, "K", "60 K - 29.8 K")

    # The regulator: two ways to the air.
    near = Ta + loss * across
    up, down = v("reg.TopPath", D(928), "K/W", "28 + 900"), v("reg.BoardPath", 9 + R, "K/W", "9 + 42.66")
    v("reg.Preheat", D(0), "K", "no others")
    rise = v("reg.Rise", Preg * up * down / (up + down), "K", "0.25 W · 928 and 51.66 K/W in parallel")
    Tj = v("reg.Junction", near + rise, "K", "298.25 K + 12.23 K")
    v("reg.TopPower", rise / up, "W", "12.23 K/928 K/W")
    v("reg.BoardPower", rise / down, "W", "12.23 K/51.66 K/W")
    v("reg.Case", Tj - 28 * rise / up, "K", "below the junction by 28 K/W · 13.2 mW")
    v("reg.Board", Tj - 9 * rise / down, "K", "below the junction by 9 K/W · 236.8 mW")
    m(limit - Tj, "K", "125 °C - 37.3 °C")
    v("seen.Junction", 71 + ZERO + D("0.55") * D("2.4"), "K", "344.15 K + 0.55 W · 2.4 K/W")
    v("seen.Disagreement", D(0), "K", "one reading")

    # The diode.
    place, Rd, T75, ln2 = Ta + (Preg + loss) * across, D(55), 75 + ZERO, D(2).ln()
    at75 = 32 * D("1.8e-3") * D("0.94")

    def leaks(T):
        return at75 * power(D(2), (T - T75) / 12)

    edge = v("diode.RunawayLoss", 12 / ln2 / Rd, "W", "12 K/ln 2/55 K/W")
    top = v("diode.RunawayJunction", T75 + 12 * (edge / at75).ln() / ln2, "K", "348.15 K + 12 K · log₂(314.8 mW/54.1 mW)")
    hot = v("diode.RunawayAmbient", top - Rd * (D("0.2") + edge), "K", "378.62 K - 55 K/W · 514.8 mW")
    v("diode.RunawayMargin", hot - place, "K", "350.31 K - 298.45 K")
    rests = halve(place, top, lambda T: T - place - Rd * (D("0.2") + leaks(T)))
    v("diode.Junction", rests, "K", "where it makes as much as goes away, by halving")
    v("diode.Leaking", leaks(rests), "W", "54.1 mW · 2^((36.6 °C - 75 °C)/12 K)")
    v("diode.Heat", D("0.2") + leaks(rests), "W", "0.2 W and the leakage")
    v("diode.Gain", leaks(rests) * Rd * ln2 / 12, "1", "5.90 mW · 55 K/W · ln 2/12 K")
    v("diode.Margin", 125 + ZERO - rests, "K", "125 °C - 36.6 °C")
    v("diode.AmbientMargin", hot - place, "K", "it runs away before it reaches 125 °C")
    m(hot - place - 10, "K", "51.9 K - 10 K")
    m(110 + ZERO - rests, "K", "110 °C - 36.6 °C")


t.run(note)
t.write(spread={"reg.Preheat"})
