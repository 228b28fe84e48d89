"""Every value of the note 45-loop, computed from the straight ramps of an
inductor's current, complex impedances and the definitions of crossover and
margins, in Python's floats: roots, angles and logarithms leave no fractions.
Where a value has a second way than the note's, it is taken: Venable's own
formulas of the k factor for the parts, the triangle of current below the
boundary of conduction.

Preferred values are looked up by hand in IEC 60063 (from memory):
  E96 about 2.59: ... 2.55 2.61 2.67; about 5.34: ... 5.23 5.36 5.49; about
  1.98: ... 1.96 2.00 2.05
  E12: 1.0 1.2 1.5 1.8 2.2 2.7 3.3 3.9 4.7 5.6 6.8 8.2; E6: every other of them

Crossover and the frequency of -180 degrees are found by halving.
"""

from math import atan2, log10, pi, radians, sqrt, tan

from table import F, Table

# These depend on sources and are the same all the same.
spread = {"full.LeastSlope", "asleep.LeastSlope", "full.Conduction", "duty.Conduction", "asleep.SamplingQuality", "asleep.Plant.SamplingQuality"}


def product(factors):
    size = 1.0
    for z in factors:
        size *= abs(z)
    return size


def angle(factors):
    """Of factors none of which turns by more than a half: sums do not jump."""
    return sum(atan2(z.imag, z.real) for z in factors)


def halved(holds, top):
    """The frequency up to which something holds, between 100 Hz and top."""
    low, high = 100.0, top
    if holds(high):
        return high
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if holds(middle) else (low, middle)
    return (low + high) / 2


def margins(v, name, response, f, note):
    """Crossover, phase margin and gain margin of a response, a function from
    a frequency to its factors."""
    crossover = halved(lambda x: product(response(x)) > 1, f / 2)
    turning = halved(lambda x: angle(response(x)) > -pi, f / 2)
    phase = pi + angle(response(crossover))
    decibels = -20 * log10(product(response(turning)))
    v(name + ".Crossover", F(crossover), "Hz", f"where {note} has a size of 1, by halving")
    v(name + ".CrossoverShare", F(crossover / f), "1", "of the switching frequency")
    v(name + ".PhaseMargin", F(phase), "rad", "half a turn and the angle there")
    v(name + ".Turning", F(turning), "Hz", "where the angle is half a turn, by halving")
    v(name + ".GainMargin", F(decibels), "dB", "size there, below 1")
    return crossover, phase, decibels


class Stage:
    """The currents of the stage at one load."""

    def __init__(self, s, load):
        self.f, self.L, self.C, self.load = float(s["fsw"]), float(s["L"]), float(s["Cout"]), load
        self.R = 5 / load
        high, low, wind = 0.22, 0.13, 0.07
        self.on = float(s["Vin"]) - 5 - load * (high + wind)
        self.off = 5 + load * (low + wind)
        self.duty = self.off / (self.on + self.off)
        self.series = wind + self.duty * high + (1 - self.duty) * low
        # The triangle that brings the load: load = peak/2 · (time up + time down) · f.
        times = self.L / self.on + self.L / self.off  # per ampere of peak
        triangle = sqrt(2 * load / (times * self.f))
        self.rests = triangle * times * self.f < 1
        self.conduction = min(1.0, triangle * times * self.f)
        self.peak = triangle if self.rests else load + self.on / self.L * self.duty / self.f / 2


def current_mode(v, name, s, load):
    x = Stage(s, load)
    gps, slope, esr = float(s["gps"]), 2e5, 1e-3
    ratio = 1 + slope * x.L / x.on
    if x.rests:
        # load = L/2 · f · peak² · (1/on + 1/off), peak = gps · control/(1 + slope · L/on):
        # its slopes over control and output.
        shrinking = x.load * (1 / x.off - 1 / x.on + 2 * slope * x.L / (x.on * x.on * ratio))
        rate = 2 * x.load * gps / (ratio * x.peak)
        sampling = 1.0
        least = 0.0
    else:
        excess = ratio * (1 - x.duty) - 0.5
        shrinking = excess / (x.L * x.f)
        rate = gps
        sampling = 1 / (pi * excess)
        least = max(0.0, (x.off - x.on) / 2 / x.L)
    total = 1 / x.R + shrinking
    gain = rate / total
    pole = 1 / (2 * pi * (1 / total + esr) * x.C)
    zero = 1 / (2 * pi * esr * x.C)
    v(name + ".LoadResistance", F(5) / F(str(load)), "Ω", f"5 V/{load} A")
    v(name + ".Conduction", F(x.conduction), "1", "share of a period in which current flows")
    v(name + ".SlopeRatio", F(ratio), "1", "1 + 0.2 A/µs over the rising slope of the current")
    v(name + ".LeastSlope", F(least), "A/s", "none: the duty is below a half")
    v(name + ".Gain", F(gain), "1", "12 A/V, less below the boundary, times the resistance at the output")
    v(name + ".Pole", F(pole), "Hz", "of that resistance, 1 mΩ and 110 µF")
    v(name + ".ESRZero", F(zero), "Hz", "1/(2π · 1 mΩ · 110 µF)")
    v(name + ".SamplingQuality", F(sampling), "1", "1/(π · (ratio · (1 − duty) − 0.5)); 1 below the boundary")
    plant(v, name, x, F(gain), {"Poles[0]": F(pole), "Zeros[0]": F(zero), "SamplingQuality": F(sampling)})

    def response(frequency):
        n = 2 * frequency / x.f
        return gain, 1 / (1 + 1j * frequency / pole), 1 + 1j * frequency / zero, 1 / (1 - n * n + 1j * n / sampling)

    return x, response, sampling


def plant(v, name, x, gain, given):
    v(name + ".Plant.Gain", gain, "1", "as above")
    v(name + ".Plant.Frequency", F(x.f), "Hz", "as above")
    for field, unit in (("Poles[0]", "Hz"), ("Zeros[0]", "Hz"), ("RightZero", ""), ("Resonance", ""), ("Quality", ""), ("SamplingQuality", ""), ("Delay", "")):
        if field in given:
            v(f"{name}.Plant.{field}", given[field], "Hz" if field == "Resonance" else unit or "1", "as above")
        elif "[" not in field:
            v(f"{name}.Plant.{field}", F(0), "1", "left out")


t = Table({
    "Vin": ("18", "24", "32"),
    "fsw": ("360e3", "400e3", "440e3"),
    "L": ("17.6e-6", "22e-6", "26.4e-6"),
    "Cout": ("88e-6", "110e-6", "132e-6"),
    "Rtop": ("52.0385e3", "52.3e3", "52.5615e3"),
    "Rbot": ("9.95e3", "10e3", "10.05e3"),
    "gea": ("262.5e-6", "350e-6", "437.5e-6"),
    "gps": ("9.6", "12", "14.4"),
    "Rc": ("25.839e3", "26.1e3", "26.361e3"),
    "Cc": ("1.98e-9", "2.2e-9", "2.42e-9"),
})


def first(v, margin, s):
    for name, unit, how in (
        ("Vin", "V", "given: usual of 18 V, 24 V, 32 V"), ("fsw", "Hz", "given: 400 kHz, nominal of ±10 %"), ("L", "H", "given: 22 µH, nominal of ±20 %"),
        ("Cout", "F", "given: 110 µF, nominal of ±20 %"), ("Rtop", "Ω", "given: 52.3 kΩ, nominal of ±0.5 %"), ("Rbot", "Ω", "given: 10 kΩ, nominal of ±0.5 %"),
        ("gea", "S", "given: 350 µA/V, nominal of ±25 %"), ("gps", "S", "given: 12 A/V, nominal of ±20 %"),
    ):
        v(name, s[name], unit, how)
    v("slope", F("2e5"), "A/s", "given: 0.2 A/µs")
    full, response, sampling = current_mode(v, "full", s, 1.5)
    margin(F(1 - sampling), "1", "1 - 0.6886")

    crossover, wanted = 25e3, radians(70)
    at = response(crossover)
    size, turned = product(at), angle(at)
    boost = wanted - pi / 2 - turned
    k = tan(pi / 4 + boost / 2)
    r1 = (1 + float(s["Rtop"]) / float(s["Rbot"])) / float(s["gea"])
    high = size / (2 * pi * crossover * k * r1)
    low = high * (k * k - 1)
    v("comp.PlantGain", F(size), "1", "size of the plant at 25 kHz")
    v("comp.PlantPhase", F(turned), "rad", "its angle")
    v("comp.Boost", F(boost), "rad", "70° - 90° + 98.29°")
    v("comp.Ratio", F(k), "1", "tan(45° + 78.29°/2)")
    v("comp.Zero", F(crossover / k), "Hz", "25 kHz/9.752")
    v("comp.Pole", F(crossover * k), "Hz", "25 kHz · 9.752")
    v("comp.Resistor", F(k / (2 * pi * crossover * low)), "Ω", "9.752/(2π · 25 kHz · 2.394 nF)")
    v("comp.Capacitor", F(low), "F", "25.43 pF · (9.752² - 1)")
    v("comp.HighCapacitor", F(high), "F", "0.6935/(2π · 25 kHz · 9.752 · 6.23/350 µS)")
    v("Rc", s["Rc"], "Ω", "25.94 kΩ; E96 has 25.5, 26.1 and 26.7 kΩ there, the nearest is 26.1; nominal of ±1 %")
    v("Cc", s["Cc"], "F", "2.394 nF; E6 has 2.2 and 3.3 nF there, the nearer is 2.2; nominal of ±10 %")
    v("Ch", F("22e-12"), "F", "25.43 pF; E6 has 22 and 33 pF there, the nearer is 22")

    for field, name, unit in (("Transconductance", "gea", "S"), ("Upper", "Rtop", "Ω"), ("Lower", "Rbot", "Ω"), ("Resistor", "Rc", "Ω"), ("Capacitor", "Cc", "F")):
        v("amplifier." + field, s[name], unit, "as above")
    v("amplifier.HighCapacitor", F("22e-12"), "F", "as above")
    for field in ("OutputResistance", "GainBandwidth", "LeadResistor", "LeadCapacitor"):
        v("amplifier." + field, F(0), "1", "left out")
    Rc, Cc, Ch = float(s["Rc"]), float(s["Cc"]), 22e-12

    def amplifier(x):
        p = 2j * pi * x
        return 1 / r1, 1 / (1 / (Rc + 1 / (p * Cc)) + p * Ch)

    fc, phase, decibels = margins(v, "margins", lambda x: response(x) + amplifier(x), full.f, "plant and amplifier")
    margin(F(72000) - F(fc), "Hz", "360 kHz/5 - 25.22 kHz")
    margin(F(phase - radians(50)), "rad", "70.2° - 50°")
    margin(F(decibels - 8), "dB", "17.72 dB - 8 dB")
    _, resting, _ = current_mode(v, "asleep", s, 0.15)
    fc, phase, decibels = margins(v, "idle", lambda x: resting(x) + amplifier(x), full.f, "plant and amplifier")
    margin(F(phase - radians(50)), "rad", "73.31° - 50°")
    margin(F(fc - 3000), "Hz", "16.92 kHz - 3 kHz")


# The second source has sources of its own.
u = Table({name: t.sources[name] for name in ("Vin", "fsw", "L", "Cout")} | {
    "GBW": ("3e6", "5e6", "8e6"),
    "R1": ("9.95e3", "10e3", "10.05e3"),
    "R4": ("1.90045e3", "1.91e3", "1.91955e3"),
    "R2": ("5.3064e3", "5.36e3", "5.4136e3"),
    "C1": ("9.5e-9", "10e-9", "10.5e-9"),
    "C3": ("5.32e-9", "5.6e-9", "5.88e-9"),
})


def second(v, margin, s):
    x = Stage(s, 1.5)
    esr, C = 1e-3, x.C
    v("GBW", s["GBW"], "Hz", "given: typical of 3 MHz, 5 MHz, 8 MHz")
    v("R1", s["R1"], "Ω", "given: 10 kΩ, nominal of ±0.5 %")
    v("R4", s["R4"], "Ω", "given: 1.91 kΩ, nominal of ±0.5 %")
    modulator = (x.on + x.off) / (0.1 * float(s["Vin"]))

    def filtered(frequency):
        p = 2j * pi * frequency
        out = 1 / (1 / x.R + 1 / (esr + 1 / (p * C)))
        return out / (out + x.series + p * x.L)

    # The filter's denominator, 1 + a · s + b · s².
    b = x.L * C * (x.R + esr) / (x.R + x.series)
    a = (x.L + C * (x.R * x.series + x.R * esr + x.series * esr)) / (x.R + x.series)
    gain, zero = modulator * x.R / (x.R + x.series), 1 / (2 * pi * esr * C)
    resonance, quality = 1 / (2 * pi * sqrt(b)), sqrt(b) / a
    v("duty.Modulator", F(modulator), "1", "23.87 V at the switch node over 2.4 V of ramp")
    v("duty.LoadResistance", F(5) / F("1.5"), "Ω", "5 V/1.5 A")
    v("duty.SeriesResistance", F(x.series), "Ω", "70 mΩ + 22.2 % · 220 mΩ + 77.8 % · 130 mΩ")
    v("duty.Conduction", F(x.conduction), "1", "the current never rests")
    v("duty.Gain", F(gain), "1", "9.944 · 3.333 Ω/(3.333 Ω + 0.22 Ω)")
    v("duty.Resonance", F(resonance), "Hz", "of the filter with all resistances")
    v("duty.Quality", F(quality), "1", "of the filter with all resistances")
    v("duty.ESRZero", F(zero), "Hz", "1/(2π · 1 mΩ · 110 µF)")
    plant(v, "duty", x, F(gain), {"Zeros[0]": F(zero), "Resonance": F(resonance), "Quality": F(quality)})

    def response(frequency):
        whole = filtered(frequency)
        return modulator, whole

    crossover, wanted = 20e3, radians(65)
    at = response(crossover)
    size, turned = product(at), angle(at)
    boost = wanted - pi / 2 - turned
    root = tan(pi / 4 + boost / 4)
    K, r1 = root * root, float(s["R1"])
    high = size / (2 * pi * crossover * r1)
    low = high * (K - 1)
    r3 = r1 / (K - 1)
    v("three.PlantGain", F(size), "1", "size of the plant at 20 kHz")
    v("three.PlantPhase", F(turned), "rad", "its angle")
    v("three.Boost", F(boost), "rad", "65° - 90° + 173.2°")
    v("three.LeadBoost", F(boost / 2), "rad", "half of it")
    for name in ("Ratio", "LeadRatio"):
        v("three." + name, F(root), "1", "tan(45° + 148.2°/4)")
    for name in ("Zero", "LeadZero"):
        v("three." + name, F(crossover / root), "Hz", "20 kHz/7.17")
    for name in ("Pole", "LeadPole"):
        v("three." + name, F(crossover * root), "Hz", "20 kHz · 7.17")
    v("three.Resistor", F(root / (2 * pi * crossover * low)), "Ω", "7.17/(2π · 20 kHz · 10.68 nF)")
    v("three.Capacitor", F(low), "F", "211.8 pF · (7.17² - 1)")
    v("three.HighCapacitor", F(high), "F", "0.2662/(2π · 20 kHz · 10 kΩ)")
    v("three.LeadResistor", F(r3), "Ω", "10 kΩ/(7.17² - 1)")
    v("three.LeadCapacitor", F(1 / (2 * pi * crossover * root * r3)), "F", "1/(2π · 20 kHz · 7.17 · 198.4 Ω)")
    v("R2", s["R2"], "Ω", "5.344 kΩ; E96 has 5.23, 5.36 and 5.49 kΩ there, the nearest is 5.36; nominal of ±1 %")
    v("C1", s["C1"], "F", "10.68 nF; E12 has 10 and 12 nF there, the nearer is 10; nominal of ±5 %")
    v("C2", F("220e-12"), "F", "211.8 pF; E12 has 180 and 220 pF there, the nearer is 220")
    v("R3", F("200"), "Ω", "198.4 Ω; E96 has 196, 200 and 205 Ω there, the nearest is 200")
    v("C3", s["C3"], "F", "5.595 nF; E12 has 5.6 nF there; nominal of ±5 %")
    R4, R2, C1, C3, GBW = (float(s[name]) for name in ("R4", "R2", "C1", "C3", "GBW"))

    def amplifier(f):
        p = 2j * pi * f
        into = 1 / r1 + 1 / (200 + 1 / (p * C3))
        across = 1 / (R2 + 1 / (p * C1)) + p * 220e-12
        noise = 1 + (into + 1 / R4) / across
        return into, 1 / across, 1 / (1 + 1j * f / GBW * noise)

    fc, phase, decibels = margins(v, "second", lambda f: response(f) + amplifier(f), x.f, "plant and amplifier")
    margin(F(72000) - F(fc), "Hz", "360 kHz/5 - 20.21 kHz")
    margin(F(phase - radians(45)), "rad", "62.74° - 45°")
    margin(F(decibels - 8), "dB", "18.67 dB - 8 dB")


t.run(first)
u.run(second)
order = sum(name.startswith("requirement") for name in t.lines)
for name in u.lines:
    number = name.partition(" ")[2]
    to = f"requirement {order + int(number)}" if name.startswith("requirement") else name
    t.lines[to], t.low[to], t.high[to] = u.lines[name], u.low[name], u.high[name]
t.write(spread=spread)
