"""Every value of the note 90-battery, computed from means over time, straight
lines between the rows of the tables, Ohm's and Kirchhoff's laws, the equation of
a battery that discharges by itself, and the balance of energy of each month,
with 40 decimal digits.

Every value rises or falls all the way with each of its sources: the cell's
capacity and resistance with its temperature, the share of a mode with its own
current and against that of the others, the state of charge with capacity,
temperature and harvest and against the load. All extremes are at corners.
"""

from decimal import Decimal as D

from table import F, Table

t = Table({
    "Tcell": ("-10", "15", "45"),
    "Isend": ("0.035", "0.04", "0.048"),
    "Isleep": ("3e-6", "6e-6", "15e-6"),
    "Crated": ("1710", "1800", "1890"),
    "Kept": ("0.2", "0.4", "0.5"),
    "constant": ("900", "1000", "1100"),
    "resistor": ("9900", "10000", "10100"),
    "input": ("4.75", "5", "5.25"),
    "battery": ("3", "3.7", "4.2"),
})

# The rows of the files beside the note.
CAPACITY = [("-20", "0.6"), ("0", "0.8"), ("25", "1"), ("60", "1")]
VOLTAGE = [("0", "3"), ("0.1", "3.45"), ("0.5", "3.7"), ("0.8", "3.95"), ("1", "4.15")]
RESISTANCE = [("-20", "1.6"), ("0", "0.7"), ("25", "0.3"), ("60", "0.2")]
SUN = ["0.7", "1.2", "2.1", "2.9", "3.3", "3.4", "3.4", "3.0", "2.4", "1.5", "0.8", "0.5"]
DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]


def dec(x):
    return D(x.numerator) / D(x.denominator)


def line_at(rows, x):
    """The straight line between the rows around x."""
    rows = [(D(a), D(b)) for a, b in rows]
    for (a, y), (b, z) in zip(rows, rows[1:]):
        if a <= x <= b:
            return y + (z - y) * (x - a) / (b - a)
    raise ValueError(x)


def note(line, margin, at):
    s = {name: dec(x) for name, x in at.items()}

    def v(name, x, unit, how):
        line(name, F(x), unit, how)
        return x

    def m(x, unit, how):
        margin(F(x), unit, how)

    T = s["Tcell"]
    v("Tcell", T + D("273.15"), "K", "15 °C + 273.15 K, usual of -10 °C, 15 °C, 45 °C")
    Isend = v("Isend", s["Isend"], "A", "given: typical of 35 mA, 40 mA, 48 mA")
    Isleep = v("Isleep", s["Isleep"], "A", "given: typical of 3 µA, 6 µA, 15 µA")
    Crated = v("Crated", s["Crated"], "C", "500 mAh · 3600 s/h, nominal of ±5 %")

    # The modes, in 600 s.
    parts = [(Isend, D("0.08"), "80 ms"), (D("0.004"), D("1.5"), "1.5 s"), (Isleep, D("598.42"), "600 s - 1.58 s")]
    average = sum(current * time for current, time, _ in parts) / 600
    v("modes.Average", average, "A", "(40 mA · 80 ms + 4 mA · 1.5 s + 6 µA · 598.42 s)/600 s")
    v("modes.Peak", Isend, "A", "the radio")
    v("modes.Daily", average * 86400, "C", "21.32 µA · 86 400 s")
    for i, (current, time, how) in enumerate(parts):
        v(f"modes.Parts[{i}].Current", current, "A", "given")
        v(f"modes.Parts[{i}].Share", time / 600, "1", how + " of 600 s")
        v(f"modes.Parts[{i}].Average", current * time / 600, "A", "current · " + how + " of 600 s")
        v(f"modes.Parts[{i}].Taken", current * time / 600 / average, "1", "of 21.32 µA")
    m(D("50e-6") - average, "A", "50 µA - 21.32 µA")

    # The capacity.
    cold = v("there.TemperatureShare", line_at(CAPACITY, T), "1", "80 % + 20 % · 15/25")
    v("there.RateShare", D(1), "1", "no curve is given")
    v("there.CycleShare", D(1), "1", "no curve is given")
    v("there.AgeShare", D("0.8"), "1", "given")
    v("there.Share", cold * D("0.8"), "1", "92 % · 80 %")
    left = v("there.Left", Crated * cold * D("0.8"), "C", "500 mAh · 73.6 %")
    m(left - 900, "C", "368 mAh - 250 mAh")

    # What the regulator can use.
    cutoff = v("end.Cutoff", D("3.15"), "V", "3 V + 150 mV")
    v("end.Current", Isend, "A", "the radio")
    R = v("end.Resistance", line_at(RESISTANCE, T), "Ω", "0.7 Ω - 0.4 Ω · 15/25")
    sag = v("end.Sag", Isend * R, "V", "40 mA · 460 mΩ")
    rest = v("end.OpenCircuit", cutoff + sag, "V", "3.15 V + 18.4 mV")
    v("end.Margin", D("4.15") - rest, "V", "4.15 V - 3.1684 V")
    state = v("end.Left", line_at([(y, x) for x, y in VOLTAGE], rest), "1", "10 % · 0.1684/0.45")
    usable = v("end.Usable", 1 - state, "1", "100 % - 3.742 %")
    m(usable - D("0.9"), "1", "96.26 % - 90 %")
    v("pulse.Alone", sag, "V", "40 mA · 460 mΩ")
    v("pulse.Step", sag, "V", "no capacitor: at once")
    v("pulse.Drop", sag, "V", "no capacitor: the same")
    v("pulse.Voltage", D("3.3") - sag, "V", "3.3 V - 18.4 mV")
    pulse = v("pulse.Margin", D("3.3") - sag - cutoff, "V", "3.2816 V - 3.15 V")
    v("pulse.LargestCurrent", (D("3.3") - cutoff) / R, "A", "0.15 V/460 mΩ")
    m(pulse - D("0.05"), "V", "131.6 mV - 50 mV")

    # Without sun: dQ/dt = -I - k Q from Q0 is empty after ln(1 + k Q0/I)/k.
    Q = v("alone.Usable", left * usable, "C", "368 mAh · 96.26 %")
    ideal = v("alone.Ideal", Q / average, "s", "1275.2 C/21.32 µA")
    k = -D("0.97").ln() / (30 * 86400)
    time = (1 + k * Q / average).ln() / k
    v("alone.Kept", time / ideal, "1", "524.3 d/692.4 d")
    v("alone.Time", time, "s", "ln(1 + k · 692.4 d)/k, k = -ln(97 %)/30 d")
    v("alone.Delivered", average * time, "C", "21.32 µA · 524.3 d")
    v("alone.Lost", Q - average * time, "C", "1275.2 C - 965.8 C")
    v("alone.Unused", D(0), "C", "it is used up")
    m(time - 120 * 86400, "s", "524.3 d - 120 d")

    # The year, from full.
    kept = v("Kept", s["Kept"], "1", "given: usual of 20 %, 40 %, 50 %")
    P = v("Pload", D("3.7") * average, "W", "3.7 V · 21.32 µA")
    full = D("3.7") * Q
    inside, total, months = full, {}, []
    for i, (sun, days) in enumerate(zip(SUN, DAYS)):
        harvest = D("0.01") * D(sun) * 3600 * days
        stored, load = harvest * kept, P * 86400 * days
        then = inside + stored - load
        inside = max(min(then, full), D(0))
        month = {
            "Harvest": (harvest, "J", f"10 mW · {sun} h · {days}"),
            "Stored": (stored, "J", "40 % of it"),
            "Load": (load, "J", f"78.87 µW · {days} · 86 400 s"),
            "Spilled": (max(then - full, D(0)), "J", "what is above 3.7 V · 1275.2 C"),
            "Missing": (max(-then, D(0)), "J", "never empty"),
            "Lost": (harvest - stored, "J", "60 % of it"),
        }
        for name, (x, _, _) in month.items():
            total[name] = total.get(name, D(0)) + x
        del month["Lost"]
        month["Number"] = (D(i + 1), "1", "counted")
        month["Level"] = (inside / full, "1", "over 3.7 V · 1275.2 C")
        month["Ratio"] = (stored / load, "1", "stored over load")
        months.append(month)
        for name, (x, unit, how) in month.items():
            v(f"year.Months[{i}].{name}", x, unit, how)
    worst = min(months, key=lambda month: month["Ratio"][0])
    lowest = min(month["Level"][0] for month in months)
    v("year.Worst", worst["Number"][0], "1", "December, whatever is kept and taken")
    v("year.Ratio", worst["Ratio"][0], "1", "in December")
    v("year.Lowest", lowest, "1", "the least of the months")
    for name in ("Missing", "Harvest", "Lost", "Spilled", "Load"):
        v("year." + name, total[name], "J", "sum of the months")
    v("year.Change", inside - full, "J", "at the end less full")
    v("year.Autonomy", full / P, "s", "as alone.Ideal: 3.7 V on both sides")
    m(lowest - D("0.8"), "1", "100 % - 80 %")
    m(-total["Missing"], "J", "nothing is missing")

    # The charger.
    I = v("set.Current", s["constant"] / s["resistor"], "A", "1000 V/10 kΩ")
    v("set.Precharge", D(0), "A", "none is given")
    v("set.Termination", I / 10, "A", "10 % of 100 mA")
    v("set.Margin", D("0.25") - I, "A", "250 mA - 100 mA")
    drop = s["input"] - s["battery"]
    allowed = v("heat.Allowed", (120 - T) / (150 * drop), "A", "105 K/(150 K/W · 1.3 V)")
    flows = v("heat.Charging", min(I, allowed), "A", "what is set, below what is allowed")
    v("heat.Share", flows / I, "1", "all of it")
    v("heat.Loss", drop * flows, "W", "1.3 V · 100 mA")
    v("heat.Junction", T + D("273.15") + 150 * drop * flows, "K", "15 °C + 130 mW · 150 K/W")
    room = v("heat.Margin", allowed - I, "A", "538.5 mA - 100 mA")
    m(D("0.25") - I - D("0.1"), "A", "150 mA - 100 mA")
    m(room - D("0.05"), "A", "438.5 mA - 50 mA")


t.run(note)
t.write(spread=["alone.Unused", "year.Worst", "year.Missing", "set.Precharge", "heat.Share", "year.Change"]
        + [f"year.Months[{i}].{name}" for i in range(12) for name in ("Level", "Missing", "Spilled")] + ["requirement 7"])
