"""Cases that a wrong idea of a source would fail, worked by hand: each line
states its steps. Exact fractions; square roots by decimal arithmetic.

Source: arithmetic. The E96 members 1.91 and 1.96 are those of IEC 60063.

    python3 -B hand.py     writes hand.csv and, for the two bridges of twelve
        parts, bridges.csv with its inputs (brute force over 4096 corners)
"""

import itertools
import math
from fractions import Fraction as F

from witness import corners, exact, linear, input_rows, percent, rpn, write, INPUT_COLUMNS

ROWS = []


def add(case, quantity, value, how):
    ROWS.append([case, quantity, float(value), how])


def spread(function, *ranges):
    """Lowest and highest value over all corners, in exact fractions."""
    values = [function(*corner) for corner in itertools.product(*ranges)]
    return min(values), max(values)


def pct(nominal, tolerance):
    return F(nominal) * (1 - F(tolerance) / 100), F(nominal) * (1 + F(tolerance) / 100)


# --- One part, two parts ---------------------------------------------------
add("divider-one-part", "low", F(1, 2), "R/(R+R): the same part twice, R cancels")
add("divider-one-part", "high", F(1, 2), "R/(R+R)")
add("divider-one-part", "std", 0, "R/(R+R)")
low, high = spread(lambda a, b: b / (a + b), pct(10000, 1), pct(10000, 1))
add("divider-two-parts", "low", low, "0.99/(1.01+0.99)")
add("divider-two-parts", "high", high, "1.01/(0.99+1.01)")
add("divider-two-parts", "std", F(1, 400) * F(2, 1) / math.sqrt(6), "first order: sensitivities -/+ 1/4 of 1 %/sqrt(3) each: 0.0025 sqrt(2/3)")
add("parallel-one-part", "nominal", 500, "1 kohm beside itself: R*R/(R+R) = R/2")
add("parallel-one-part", "high", 505, "R/2 with R = 1010")
add("parallel-one-part", "std", 5 / math.sqrt(3), "500 * 1 %/sqrt(3)")
add("parallel-two-parts", "high", 505, "1010 beside 1010")
add("parallel-two-parts", "std", 5 / math.sqrt(6), "first order: sensitivity 1/4 each: 1/4 sqrt(2) 10/sqrt(3)")
add("difference-one-part", "high", 0, "R - R of one part is 0 in every lane; of two parts of 10 kohm 1 % it is 200 ohm")
add("difference-two-parts", "high", 200, "10100 - 9900")
add("difference-two-parts", "std", 100 * math.sqrt(2 / 3), "sqrt(2) * 100/sqrt(3)")

# --- Two evaluations of a block --------------------------------------------
# block(V) = V R2/(R1+R2), both parts 1 %, inside the block; V = 5 V 5 %, outside.
ratio = spread(lambda a, b: b / (a + b), pct(1, 1), pct(1, 1))
add("block-twice", "one less itself", 0, "a := block(V); a - a")
add("block-twice", "nominal", 0, "block(V) - block(V), two evaluations: two sets of parts")
low, high = spread(lambda v, p, q: v * (p - q), pct(5, 5), ratio, ratio)
add("block-twice", "low", low, "5.25 (0.495 - 0.505): V is one source, shared")
add("block-twice", "high", high, "5.25 (0.505 - 0.495)")
low, high = spread(lambda v, w, p, q: v * p - w * q, pct(5, 5), pct(5, 5), ratio, ratio)
add("block-twice", "wrong high", high, "5.25*0.505 - 4.75*0.495 if V also became two sources; must NOT come out")
add("block-twice", "std", 5 * math.sqrt(2) * 0.005 / math.sqrt(6), "first order: V has no share at ratio difference 0; each ratio 0.005/sqrt(6)")

# --- A maximum inside a range ----------------------------------------------
# Irms = I sqrt(D(1-D)), D = 12 V/Vin, I = 2 A exact, Vin 18 to 32 V.
for vin, quantity in ((18, "at 18 V"), (20, "at 20 V"), (24, "at 24 V"), (32, "at 32 V")):
    d = F(12, vin)
    add("input-capacitor", quantity, 2 * math.sqrt(d * (1 - d)), f"D = {d}, 2 sqrt({d * (1 - d)})")
add("input-capacitor", "low", 2 * math.sqrt(F(2, 9)), "at 18 V, D = 2/3; at 32 V, D = 3/8, it is 0.9682")
add("input-capacitor", "high", 1, "at 24 V, D = 1/2: 2 * 1/2; D(1-D) has its top there, whatever the usual value of the range")
add("input-capacitor", "high at the ends", 2 * math.sqrt(F(15, 64)), "32 V; what ends alone would say; must NOT come out as the extreme")

# --- Decisions and regimes -------------------------------------------------
add("dropout", "nominal", 5, "regulator: if Vin - Vdo < 5 V then Vin - Vdo else 5 V; Vin 4.5, 6, 7 V, Vdo 0.4 -/+ 0.1 V: 6 - 0.4 >= 5")
add("dropout", "low", 4, "4.5 - 0.5; the nominal branch at that corner would say 5")
add("dropout", "high", 5, "regulated")

# --- A chosen part stays chosen --------------------------------------------
# Rbot = nearest E96 to 10k*0.8/4.2 = 1904.76: 1.91 k. Vref 0.788 .. 0.812, parts exact.
add("chosen", "ideal", F(10000) * F("0.8") / F("4.2"), "10k * 0.8/(5 - 0.8)")
add("chosen", "nominal", F("0.8") * (1 + F(10000, 1910)), "0.8 (1 + 10/1.91)")
add("chosen", "low", F("0.788") * (1 + F(10000, 1910)), "0.788 (1 + 10/1.91)")
add("chosen", "high", F("0.812") * (1 + F(10000, 1910)), "0.812 (1 + 10/1.91)")
add("chosen", "wrong high", F("0.812") * (1 + F(10000, 1960)),
    "0.812 V would choose anew: 10k*0.812/4.188 = 1938.9, nearest E96 1.96 k; must NOT come out")

# --- Shared temperature ----------------------------------------------------
# R1 = 10 k, R2 = 1 k, each -/+ 100 ppm/K about 25 C, one temperature, -40 .. 85 C.
CASE = "shared-temperature"
add(CASE, "nominal", F(1, 11), "1/(10+1) at 25 C")
cold = F(65) * F(100, 10**6)
hot = F(60) * F(100, 10**6)
add(CASE, "low", (1 - cold) / (10 * (1 + cold) + 1 - cold), "at -40 C, dT = -65 K: 0.9935/(10.065+0.9935), coefficients of opposite sign")
add(CASE, "high", (1 + cold) / (10 * (1 - cold) + 1 + cold), "at -40 C: 1.0065/(9.935+1.0065)")
add(CASE, "low at 85 C", (1 - hot) / (10 * (1 + hot) + 1 - hot), "dT = 60 K: 0.994/(10.06+0.994)")
add(CASE, "high at 85 C", (1 + hot) / (10 * (1 - hot) + 1 + hot), "1.006/(9.94+1.006)")
add(CASE, "std", float(F(10, 121) * cold) * math.sqrt(2 / 3), "at its worst point, -40 C, first order: 10/121 * 6500e-6/sqrt(3) * sqrt(2)")
CASE = "tracking-temperature"  # both coefficients exactly +100 ppm/K
add(CASE, "low", F(1, 11), "both parts change alike: 1/11 at every temperature")
add(CASE, "high", F(1, 11), "both parts change alike")
add(CASE, "wrong high", (1 + hot) / (10 * (1 - cold) + 1 + hot),
    "R1 at -40 C and R2 at 85 C at once: 1.006/(9.935+1.006); must NOT come out")
CASE = "same-sign-temperature"  # R1 +100 ppm/K, R2 +50 ppm/K, exact, one temperature
t = lambda d: (1 + F(d * 50, 10**6)) / (10 * (1 + F(d * 100, 10**6)) + 1 + F(d * 50, 10**6))
add(CASE, "low", t(60), "85 C: 1.003/(10.06+1.003)")
add(CASE, "high", t(-65), "-40 C: 0.99675/(9.935+0.99675)")

# --- Several terms, and one that drifts ------------------------------------
CASE = "terms"  # 10 kohm -/+ 1 % -/+ 0.5 % random, 0.2 % drift, each of the nominal
add(CASE, "rss percent", math.sqrt(1 + 0.25) + 0.2, "sqrt(1^2 + 0.5^2) + 0.2 = 1.118 + 0.2")
add(CASE, "worst percent", F("1.7"), "1 + 0.5 + 0.2")
add(CASE, "high", 10170, "10 k * 1.017, terms added; multiplied factors would give 10170.8")
add(CASE, "low", 9830, "10 k * 0.983")
add(CASE, "rss high", 10000 + 100 * (math.sqrt(1.25) + 0.2), "10 k + 131.8 ohm")
add(CASE, "std", 100 * math.sqrt(1.25 / 3), "random terms alone: 10 k sqrt(1^2+0.5^2) %/sqrt(3); a drift has none")
CASE = "two-drifts"  # two such parts in series: drifts add straight, also across parts
add(CASE, "rss", 100 * math.sqrt(2 * 1.25) + 40, "20 kohm: sqrt(2 (100^2+50^2)) + 20 + 20 ohm")
add(CASE, "worst", 340, "2 (100+50+20) ohm")

# --- A range is no tolerance -----------------------------------------------
CASE = "range-and-part"  # I = V/R, V range 9 12 15 V, R 1 kohm 1 %
low, high = spread(lambda v, r: v / r, (F(9), F(15)), pct(1000, 1))
add(CASE, "low", low, "9/1010")
add(CASE, "high", high, "15/990")
add(CASE, "std", 15e-3 * 0.01 / math.sqrt(3), "first order at 15 V, the worst point of the range: 15 mA * 1 %/sqrt(3); V has no share")
add(CASE, "rss half-width", 15e-3 * 0.01, "one random term, at 15 V: 0.15 mA")

# --- Asymmetric band -------------------------------------------------------
CASE = "band"  # least 4.9, typical 5.0, most 5.3
add(CASE, "uniform mean", F("5.1"), "(4.9+5.3)/2, not the typical value")
add(CASE, "uniform std", 0.4 / math.sqrt(12), "0.4/sqrt(12)")
add(CASE, "triangular mean", F("15.2") / 3, "(4.9+5.0+5.3)/3")
a, b, c = F("4.9"), F("5.3"), F("5.0")
add(CASE, "triangular std", math.sqrt((a * a + b * b + c * c - a * b - a * c - b * c) / 18), "sqrt((a^2+b^2+c^2-ab-ac-bc)/18) = sqrt(0.13/18)")

# --- The three methods on one circuit --------------------------------------
CASE = "feedback"  # Vout = Vref (1 + Rt/Rb): 0.8 V 1.5 %, 10 k 1 %, 1.91 k 1 %
ref, top, bottom = pct("0.8", "1.5"), pct(10000, 1), pct(1910, 1)
vout = lambda v, t, b: v * (1 + t / b)
low, high = spread(vout, ref, top, bottom)
nominal = vout(F("0.8"), F(10000), F(1910))
share = F(10000) / (10000 + 1910)
add(CASE, "nominal", nominal, "0.8 (1 + 10/1.91)")
add(CASE, "low", low, "0.788 (1 + 9.9/1.9291)")
add(CASE, "high", high, "0.812 (1 + 10.1/1.8909)")
add(CASE, "relative sensitivity of Vref", 1, "Vout goes as Vref")
add(CASE, "relative sensitivity of Rtop", share, "Rt/(Rt+Rb) = 10/11.91; of Rbot the same, negative")
rss = math.sqrt(F("1.5") ** 2 + 2 * share**2)
add(CASE, "rss percent", rss, "sqrt(1.5^2 + 2 (10/11.91)^2)")
add(CASE, "rss half-width", float(nominal) * rss / 100, "of 4.98848 V")
add(CASE, "std", float(nominal) * rss / 100 / math.sqrt(3), "uniform parts: half-width/sqrt(3)")
add(CASE, "share of Vref in the variance", F("2.25") / (F("2.25") + 2 * share**2), "1.5^2/(1.5^2 + 2 (10/11.91)^2)")

# --- Nominal passes, worst case fails --------------------------------------
# Bus bias: 5 V 5 %, two 510 ohm 5 % in series with the bus: two terminations of
# 120 ohm 5 % and 750 ohm of receivers (32 of 12 kohm a line, exact) in parallel.
CASE = "bias-network"  # required: at least 0.25 V between the lines
bus = lambda t1, t2: 1 / (1 / F(t1) + 1 / F(t2) + F(1, 750))
vab = lambda v, r1, r2, t1, t2: v * bus(t1, t2) / (r1 + r2 + bus(t1, t2))
add(CASE, "nominal", vab(F(5), F(510), F(510), F(120), F(120)), "60 beside 750 is 55.556; 5 * 55.556/1075.556: passes 0.25 V")
low, high = spread(vab, pct(5, 5), pct(510, 5), pct(510, 5), pct(120, 5), pct(120, 5))
add(CASE, "low", low, "57 beside 750 is 52.974; 4.75 * 52.974/(1071 + 52.974): fails 0.25 V")
add(CASE, "high", high, "63 beside 750 is 58.118; 5.25 * 58.118/(969 + 58.118)")

# --- Bridges of twelve parts -----------------------------------------------
ARMS = [[f"{arm}{k}" for k in (1, 2, 3)] for arm in "ABCD"]
A, B, C, D = ("(" + "+".join(arm) + ")" for arm in ARMS)
VALUES = {"equal": ((1000, 1000, 1000), ("1", "1", "1")), "mixed": ((100, 220, 680), ("5", "2", "0.5"))}
bridges, inputs = [], []
for name, (values, tolerances) in VALUES.items():
    case = "bridge-" + name
    parts = [percent(n, v, float(t)) for arm in ARMS for n, v, t in zip(arm, values, tolerances)]
    total = sum(F(v) for v in values)
    half = sum(F(v) * F(t) / 100 for v, t in zip(values, tolerances))
    # Each output is monotone in each arm: B and C high, A and D low, and back.
    top = 10 * ((total + half) / (2 * total) - (total - half) / (2 * total))
    add(case, "nominal", 0, "10 V (B/(A+B) - D/(C+D)), four equal arms of three parts in series")
    add(case, "high", top, f"10 h/R, arm R = {total}, half-width h = {float(half):g}: B, C high and A, D low; arms then add to 2R")
    add(case, "low", -top, "the mirror image")
    # Sensitivity of the output to each of the 12 parts is 10/(4R).
    squares = 4 * sum((F(v) * F(t) / 100) ** 2 for v, t in zip(values, tolerances))
    add(case, "std", float(F(10) / (4 * total)) * math.sqrt(squares / 3), "first order: 10/(4R) sqrt(4 sum h_i^2)/sqrt(3)")
    add(case + "-power", "nominal", 0, "output squared over 1 kohm: every first derivative is zero at the nominal")
    add(case + "-power", "high", top * top / 1000, "either end of the output; a search along the effects at the nominal finds none")
    add(case + "-power", "low", 0, "balanced: at the nominal, and at the corner where all parts are low")
    for suffix, expression in (("", f"10.0*({B}/({A}+{B})-{D}/({C}+{D}))"),
                               ("-power", f"Pow(10.0*({B}/({A}+{B})-{D}/({C}+{D})),2.0)/1000.0")):
        words = rpn(expression)
        low, low_at, high, high_at = corners(words, parts)
        wanted = top if not suffix else top * top / 1000
        assert math.isclose(high, wanted, rel_tol=1e-12), case
        assert math.isclose(low, -top if not suffix else 0, rel_tol=1e-12, abs_tol=1e-15), case
        bridges.append([case + suffix, expression, " ".join(words), low, low_at, high, high_at, linear(words, parts)[0]])
    inputs += input_rows(case, parts)

write("hand.csv", """Cases worked by hand; 'wrong ...' is what a wrong idea of a source gives.
source: arithmetic, steps in the last column
command: python3 -B hand.py""", ["case", "quantity", "value", "how"], ROWS)
write("bridges.csv", """Bridges of twelve toleranced parts: all 4096 corners by numpy.
source: computed, and equal to the values worked by hand in hand.csv
command: python3 -B hand.py""", ["case", "expr", "rpn", "corner_low", "corner_low_at", "corner_high", "corner_high_at", "std_linear"], bridges)
write("bridges_inputs.csv", """Inputs of bridges.csv (bridge-...-power has those of bridge-...).
source: made up for these tables
command: python3 -B hand.py""", INPUT_COLUMNS, inputs)
