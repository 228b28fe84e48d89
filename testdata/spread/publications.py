"""Worked examples of the publications on measurement uncertainty, with what
they print, what exact arithmetic gives, and a Monte Carlo of our own as a
second witness.

Sources, and how far they were seen:
  JCGM 100:2008, Guide to the expression of uncertainty in measurement (GUM):
      clauses 4.3.7, 5.2.2, H.1, H.2. Inputs of H.1 and of H.2 read in the
      documentation of GTC (gtc.readthedocs.io, GUM_H1 and GUM_H2); the five
      readings of H.2 and the other figures from memory.
  JCGM 101:2008, Supplement 1: clauses 9.2.2, 9.2.3, 9.2.4, 9.3, 9.4. From
      memory; each figure agrees with the exact value beside it.
  EA-4/02, example S3: result read at metrodata.de/examples/S03.smu, limits of
      the inputs from memory.
  GTC's README (github.com/MSLNZ/GTC): resistance from voltage and current.

    python3 -B publications.py     (about 30 s) writes publications.csv,
        publications_inputs.csv and publications_expected.csv
"""

from mpmath import log, mpf, sqrt
from scipy import stats

from sums import normal_quantile, uniform_sum_quantile
from witness import *

DRAWS = 2_000_000
SEED = 20081001  # of case k: SEED + k
CASES, EXPECTED = [], []


def case(name, what, unit, expression, inputs):
    CASES.append((name, what, unit, expression, inputs))


def expect(quantity, value, tolerance, kind, where):
    """What the last case gives. kind is printed (a publication's figure, with
    half its last digit as the tolerance) or exact (arithmetic shown)."""
    EXPECTED.append([CASES[-1][0], quantity, float(value), tolerance, kind, where])


# --- GUM, main text -------------------------------------------------------
case("gum-4.3.7", "reading of a voltmeter: random part and its specified error", "V", "V+dV",
     [normal("V", 0.928571, 12e-6), plus_minus("dV", 0.0, 15e-6)])
expect("std_linear", 15e-6, 0.5e-6, "printed", "GUM 4.3.7 example 2 and its continuation in clause 5, from memory")
expect("std_linear", math.sqrt(12e-6**2 + 15e-6**2 / 3), 1e-12, "exact", "sqrt(12^2 + 15^2/3) uV")

case("gum-5.2.2-one-standard", "ten resistors in series, all compared with one standard", "Ω",
     "Rs+Rs+Rs+Rs+Rs+Rs+Rs+Rs+Rs+Rs", [normal("Rs", 1000, 0.1)])
expect("std_linear", 1.0, 0.0005, "printed", "GUM 5.2.2 example, from memory: 10 * 100 mohm")
case("gum-5.2.2-ten-standards", "the answer that the example calls wrong: ten parts that know nothing of each other",
     "Ω", "+".join(f"R{k}" for k in range(1, 11)), [normal(f"R{k}", 1000, 0.1) for k in range(1, 11)])
expect("std_linear", 0.32, 0.005, "printed", "GUM 5.2.2 example, from memory: sqrt(10) * 100 mohm")

# --- GUM H.1: end gauge, in nm, K and 1/K ---------------------------------
H1 = [normal("ls", 50_000_623.0, 25.0), normal("d0", 215.0, 5.8), normal("d1", 0.0, 3.9), normal("d2", 0.0, 6.7),
      plus_minus("alpha", 11.5e-6, 2e-6), plus_minus("dalpha", 0.0, 1e-6), plus_minus("dtheta", 0.0, 0.05),
      normal("theta", -0.1, 0.2), plus_minus("Delta", 0.0, 0.5, "arcsine")]
case("gum-h1", "length of an end gauge; two products have a factor with nominal zero", "nm",
     "ls+d0+d1+d2-ls*(dalpha*(theta+Delta)+alpha*dtheta)", H1)
expect("nominal", 50_000_838.0, 0.5, "printed", "GUM H.1.5, H.1.7; GTC GUM_H1")
expect("std_linear", 32.0, 0.5, "printed", "GUM H.1.5, clause from memory; GTC GUM_H1")
expect("mc_std", 34.0, 0.5, "printed", "GUM H.1.7 with terms of second order; GTC GUM_H1")
# All inputs are independent, E(dalpha) = E(dtheta) = 0, so the variance of the
# products is E(ls^2) times (Var dalpha * E theta^2 + E alpha^2 * Var dtheta).
LS2 = mpf("50000623") ** 2 + 25**2
THETA2 = mpf("0.01") + mpf("0.04") + mpf("0.125")
ALPHA2 = mpf("11.5e-6") ** 2 + mpf("2e-6") ** 2 / 3
expect("mc_std", sqrt(625 + mpf("33.64") + mpf("15.21") + mpf("44.89") + LS2 * (
    mpf("1e-12") / 3 * THETA2 + ALPHA2 * mpf("0.0025") / 3)), 1e-9, "exact",
    "sqrt(25^2 + 5.8^2 + 3.9^2 + 6.7^2 + E(ls^2) (1e-12/3 (0.1^2+0.2^2+0.5^2/2) + (11.5e-6^2+2e-6^2/3) 0.05^2/3))")
expect("std_linear", math.sqrt(625 + 33.64 + 15.21 + 44.89 + 50_000_623.0**2 * (
    1e-12 / 3 * 0.01 + 11.5e-6**2 * 0.0025 / 3)), 1e-6, "exact", "the same with 0.1^2 and 11.5e-6^2 alone")

# --- GUM H.2: resistance, reactance and impedance, correlated readings -----
READINGS = np.array([[5.007, 19.663, 1.0456], [4.994, 19.639, 1.0438], [5.005, 19.640, 1.0468],
                     [4.990, 19.685, 1.0428], [4.999, 19.678, 1.0433]])  # V, mA, rad: table H.2, from memory
MEANS = READINGS.mean(axis=0)
# Three independent sources z of standard deviation 1 that have the covariance
# of the means: the triangular root of it.
ROOT = np.linalg.cholesky(np.cov(READINGS.T) / len(READINGS))


def reading(k):
    """Mean k and its part of the three sources, as an expression."""
    terms = [repr(float(MEANS[k]))]
    return "(" + "+".join(terms + [f"z{j + 1}*({float(ROOT[k, j])!r})" for j in range(k + 1)]) + ")"


Z3 = [normal(f"z{k}", 0.0, 1.0) for k in (1, 2, 3)]
V, I, PHI = reading(0), "(" + reading(1) + "*0.001)", reading(2)
H2 = "GUM H.2.3 table H.3, from memory; value and rounded uncertainty also in GTC GUM_H2"
for name, what, expression, value, tolerance, u, spread in (
    ("gum-h2-r", "resistance", f"{V}*Cos({PHI})/{I}", 127.732, 0.0005, 0.071, 0.0005),
    ("gum-h2-x", "reactance", f"{V}*Sin({PHI})/{I}", 219.847, 0.0005, 0.295, 0.0015),
    ("gum-h2-z", "impedance", f"{V}/{I}", 254.260, 0.0005, 0.236, 0.0005),
):
    case(name, what + " from correlated readings", "Ω", expression, Z3 if name != "gum-h2-z" else Z3[:2])
    expect("nominal", value, tolerance, "printed", H2)
    expect("std_linear", u, spread, "printed", H2)

# --- GTC's README ----------------------------------------------------------
case("gtc-resistance", "resistance from voltage and current", "Ω", "V/I",
     [normal("V", 0.1, 0.001), normal("I", 0.015, 0.0005)])
expect("nominal", 6.67, 0.005, "printed", "GTC README: 6.67(23)")
expect("std_linear", 0.23, 0.005, "printed", "GTC README: 6.67(23)")
expect("std_linear", 0.1 / 0.015 * math.sqrt(0.01**2 + (0.5 / 15) ** 2), 1e-12, "exact", "V/I sqrt(0.01^2 + (0.5/15)^2)")

# --- EA-4/02 S3 ------------------------------------------------------------
# Five ratios, 1.000010 and 4 7 6 3 5 in the next digit (from memory): deviations
# -1 2 1 -2 0, so s^2 = 10/4 and the variance of the mean is 0.5, in (1e-7)^2.
case("ea-4-02-s3", "calibration of a 10 kohm resistor", "Ω", "(RS+dRD+dRTS)*rC*r-dRTX",
     [normal("RS", 10000.053, 2.5e-3), plus_minus("dRD", 0.020, 0.010), plus_minus("dRTS", 0.0, 2.75e-3),
      plus_minus("rC", 1.0, 1e-6, "triangular"), normal("r", 1.0000105, math.sqrt(0.5) * 1e-7),
      plus_minus("dRTX", 0.0, 5.5e-3)])
expect("nominal", 10000.1780007665, 1e-9, "printed", "EA-4/02 S3 at metrodata.de/examples/S03.smu")
expect("std_linear", 0.00832800405, 1e-8, "printed", "EA-4/02 S3 at metrodata.de/examples/S03.smu")

# --- JCGM 101 9.2: sum of four ---------------------------------------------
FOUR = "X1+X2+X3+X4"
case("s1-9.2.2", "sum of four normal inputs", "1", FOUR, [normal(f"X{k}", 0.0, 1.0) for k in (1, 2, 3, 4)])
expect("mc_std", 2.0, 0.005, "printed", "JCGM 101 9.2.2 table 2, from memory")
expect("mc_p97.5", 3.92, 0.005, "printed", "JCGM 101 9.2.2 table 2, from memory")
expect("mc_p97.5", 2 * normal_quantile("0.975"), 1e-12, "exact", "2 * 1.959964")
ROOT3 = math.sqrt(3)
case("s1-9.2.3", "sum of four rectangular inputs of one width", "1", FOUR,
     [plus_minus(f"X{k}", 0.0, ROOT3) for k in (1, 2, 3, 4)])
expect("mc_std", 2.0, 0.005, "printed", "JCGM 101 9.2.3 table 3, from memory")
expect("mc_p97.5", 3.88, 0.005, "printed", "JCGM 101 9.2.3 table 3, from memory")
expect("mc_p97.5", sqrt(3) * (4 - mpf("9.6") ** mpf("0.25")), 1e-12, "exact",
       "sqrt(3) (4 - (384*0.025)^(1/4)): below -2 half-widths the density of a sum of four is a cubic")
expect("corner_high", 4 * sqrt(3), 1e-12, "exact", "4 sqrt(3)")
WIDE = [ROOT3, ROOT3, ROOT3, 10 * ROOT3]
case("s1-9.2.4", "sum of four rectangular inputs, one ten times as wide", "1", FOUR,
     [plus_minus(f"X{k + 1}", 0.0, h) for k, h in enumerate(WIDE)])
expect("mc_std", 10.1, 0.05, "printed", "JCGM 101 9.2.4 table 4, from memory")
expect("mc_p97.5", 17.0, 0.05, "printed", "JCGM 101 9.2.4 table 4, from memory")
expect("mc_std", sqrt(103), 1e-12, "exact", "sqrt(1+1+1+100)")
expect("mc_p97.5", uniform_sum_quantile(WIDE, "0.975"), 1e-12, "exact", "exact distribution, sums.py")

# --- JCGM 101 9.3: mass ----------------------------------------------------
case("s1-9.3", "deviation of a mass from its nominal; two factors are zero at the nominal", "mg",
     "(m+dm)*(1.0+(ra-1.2)*(1.0/rw-1.0/rr))-100000.0",
     [normal("m", 100_000.0, 0.05), normal("dm", 1.234, 0.02), plus_minus("ra", 1.2, 0.1),
      plus_minus("rw", 8000.0, 1000.0), plus_minus("rr", 8000.0, 50.0)])
S93 = "JCGM 101 9.3.2 table 6, from memory"
expect("std_linear", 0.0539, 0.00005, "printed", S93)
expect("mc_mean", 1.2341, 0.0002, "printed", S93)
expect("mc_std", 0.0754, 0.00005, "printed", S93)


def inverse_moments(a, b):
    """Mean of 1/rho and of 1/rho^2 for rho uniform from a to b."""
    a, b = mpf(a), mpf(b)
    return log(b / a) / (b - a), 1 / (a * b)


W1, W2 = inverse_moments(7000, 9000)
R1, R2 = inverse_moments(7950, 8050)
VAR_Z = mpf("0.01") / 3 * (W2 - 2 * W1 * R1 + R2)
M2 = mpf("100001.234") ** 2 + mpf("0.05") ** 2 + mpf("0.02") ** 2
expect("mc_mean", 1.234, 1e-9, "exact", "E(ra - 1.2) = 0")
expect("mc_std", sqrt(mpf("0.0029") + M2 * VAR_Z), 1e-9, "exact",
       "Var = 0.05^2+0.02^2 + E(M^2) 0.1^2/3 E((1/rw-1/rr)^2); E(1/rho) = ln(b/a)/(b-a), E(1/rho^2) = 1/(ab)")

# --- JCGM 101 9.4: comparison loss, a sum of squares near zero -------------
U = 0.005
for x1, mean, printed_std in ((0.0, 50e-6, 50e-6), (0.010, 150e-6, 112e-6), (0.050, 2551e-6, 502e-6)):
    name = f"s1-9.4-{x1:g}"
    case(name, "sum of squares of two normal inputs: first order gives " + ("nothing" if x1 == 0 else "another mean"),
         "1", "X1*X1+X2*X2", [normal("X1", x1, U), normal("X2", 0.0, U)])
    where = "JCGM 101 9.4.2 table 7, from memory"
    expect("mc_mean", mean, 1.5e-6, "printed", where)
    expect("mc_std", printed_std, 0.5e-6, "printed", where)
    u = mpf("0.005")
    x = mpf(repr(x1))
    expect("mc_mean", x * x + 2 * u * u, 1e-15, "exact", "x1^2 + 2 u^2")
    expect("mc_std", sqrt(4 * u * u * x * x + 4 * u**4), 1e-15, "exact", "sqrt(4 u^2 x1^2 + 4 u^4)")
    for p in (2.5, 97.5):
        q = U * U * stats.ncx2.ppf(p / 100, 2, (x1 / U) ** 2) if x1 else U * U * stats.chi2.ppf(p / 100, 2)
        expect(f"mc_p{p:g}", q, 1e-12, "exact", "u^2 times a non-central chi-square of two degrees (scipy)")


def check(rows):
    """Every expectation against the computed row: deterministic figures to
    their tolerance, Monte Carlo to five standard errors beside it."""
    for name, quantity, value, tolerance, kind, _ in EXPECTED:
        found = rows[name][quantity]
        allowed = tolerance + (5 * rows[name][quantity + "_se"] if quantity.startswith("mc_") else 0)
        if abs(found - value) > allowed:
            raise ValueError(f"{name} {quantity}: {kind} {value!r}, computed {found!r}, allowed {allowed!r}")


def main():
    rows, inputs, computed = [], [], {}
    for k, (name, what, unit, expression, parts) in enumerate(CASES):
        line = row(name, what, unit, expression, parts, DRAWS, SEED + k)
        rows.append(line)
        computed[name] = dict(zip(COLUMNS, line))
        inputs += input_rows(name, parts)
    check(computed)
    about = "source: the publications named in publications.py\ncommand: python3 -B publications.py"
    write("publications.csv", f"""Worked examples of publications, computed by numpy and python3-uncertainties.
{about} ({DRAWS} draws, PCG64, seed of row k counted from 0: {SEED} + k)""", COLUMNS, rows)
    write("publications_inputs.csv", f"Inputs of publications.csv.\n{about}", INPUT_COLUMNS, inputs)
    write("publications_expected.csv", f"""What publications print, and exact values; quantity is a column of publications.csv.
{about}""", ["case", "quantity", "value", "tolerance", "kind", "where"], EXPECTED)


main()
