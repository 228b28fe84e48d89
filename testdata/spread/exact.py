"""Exact figures of distributions that a spread must reproduce: percentiles of
sums of one to four uniform parts, of a divider of two uniform parts, normal
tails, counts beyond three sigma, and Clopper-Pearson limits.

Source: arithmetic (sums.py, 40 digits); Clopper and Pearson, The use of
confidence or fiducial limits, Biometrika 26 (1934), for the limits, from
memory. scipy's beta and binomial distributions are the second witness.

    python3 -B exact.py     writes exact.csv (about 20 s)
"""

import math

from mpmath import mpf, quad, sqrt
from scipy import stats

from sums import *
from witness import write

ROWS = []
TAILS = ("0.00135", "0.005", "0.025", "0.05", "0.25", "0.5", "0.75", "0.95", "0.975", "0.995", "0.99865")


def add(case, quantity, value, how, check=None):
    if check is not None and not math.isclose(float(value), float(check), rel_tol=1e-8, abs_tol=1e-12):
        raise ValueError(f"{case} {quantity}: {float(value)!r} is not {float(check)!r}")
    ROWS.append([case, quantity, float(value), how])


def sums():
    formula = {
        1: {"0.025": (-1 + mpf("0.05"), "-1 + 2p")},
        2: {"0.025": (-2 + sqrt(mpf("0.2")), "-2 + sqrt(8p), p <= 1/2")},
        3: {"0.025": (-3 + mpf("1.2") ** (mpf(1) / 3), "-3 + cbrt(48p), p <= 1/6")},
        4: {"0.025": (-4 + mpf("9.6") ** mpf("0.25"), "-4 + (384p)^(1/4), p <= 1/24")},
    }
    for n in (1, 2, 3, 4):
        case = f"uniform-sum-{n}"
        halves = [1] * n
        add(case, "std", sqrt(mpf(n) / 3), f"sqrt({n}/3): each part uniform from -1 to 1 has variance 1/3")
        add(case, "low", -n, "all at their low ends")
        add(case, "high", n, "all at their high ends")
        for p in TAILS:
            value, check, how = uniform_sum_quantile(halves, p), None, "alternating sum, inverted by bisection"
            if p in formula[n]:
                check, how = formula[n][p]
            add(case, "p" + f"{100 * float(p):g}", value if p != "0.5" else 0, how, check)
    add("uniform-sum-3", "below 0.5", uniform_sum_cdf([1, 1, 1], "0.5"), "1/2 + (9 s - s^3)/24 at s = 0.5, |s| <= 1",
        0.5 + (9 * 0.5 - 0.125) / 24)
    add("uniform-sum-2", "below 0.5", uniform_sum_cdf([1, 1], "0.5"), "1 - (2-s)^2/8 at s = 0.5", 1 - 1.5**2 / 8)


def divider():
    case = "divider-two-1-percent"
    t = mpf("0.01")
    add(case, "low", mpf("0.495"), "0.99/(0.99+1.01)")
    add(case, "high", mpf("0.505"), "1.01/(1.01+0.99)")
    for p in ("0.00135", "0.025", "0.05", "0.25", "0.5"):
        low = divider_quantile(t, p)
        how = "m = (ab+pd^2+sqrt((ab+pd^2)^2-a^2b^2))/b^2, t = m/(1+m); a = 0.99, b = 1.01, d = 0.02"
        add(case, "p" + f"{100 * float(p):g}", low, how)
        if p != "0.5":
            add(case, "p" + f"{100 - 100 * float(p):g}", 1 - low, "one less the mirrored percentile: the parts are alike")
        assert abs(divider_cdf(t, low) - mpf(p)) < mpf(10) ** -30
    # Variance: 2 * integral of 2 u P(ratio <= 1/2 - u) du over u > 0.
    variance = 2 * quad(lambda u: 2 * u * divider_cdf(t, mpf("0.5") - u), [0, mpf("0.005")])
    add(case, "mean", mpf("0.5"), "by symmetry")
    add(case, "std", sqrt(variance), "variance = 2 * integral of 2u P(ratio <= 1/2-u) du; first order gives 0.005/sqrt(6)")
    assert abs(sqrt(variance) / (mpf("0.005") / sqrt(6)) - 1) < 1e-4
    for limit in ("0.002", "0.003", "0.004"):
        share = 1 - 2 * divider_cdf(t, mpf("0.5") - mpf(limit))
        add(case, f"share within 0.5 -/+ {limit}", share, "1 - 2 (mb-a)^2/(2m d^2), m = t/(1-t), t = 0.5 - limit")


def tails():
    for k in (1, 2, 3, 4):
        add("normal", f"outside {k} sigma", 2 * (1 - normal_cdf(k)), "erfc(k/sqrt(2))", math.erfc(k / math.sqrt(2)))
    for p in ("0.00135", "0.025", "0.95", "0.975", "0.99865"):
        add("normal", "p" + f"{100 * float(p):g}", normal_quantile(p), "in sigmas", stats.norm.ppf(float(p)))
    share = 2 * (1 - normal_cdf(3))
    for n in (1000, 10_000, 100_000, 1_000_000):
        # The count that a fair draw stays within in 999 of 1000 runs.
        low, high = (int(x) for x in stats.binom.ppf([0.0005, 0.9995], n, float(share)))
        assert tail(high, n, share) >= mpf("0.9995") > tail(high - 1, n, share)
        assert tail(low, n, share) >= mpf("0.0005")
        add("normal", f"fewest of {n} outside 3 sigma", low, "binomial, 0.05 % below")
        add("normal", f"most of {n} outside 3 sigma", high, "binomial, 0.05 % above")


def proportions():
    for k, n in ((0, 10), (1, 10), (5, 10), (10, 10), (0, 100), (5, 100), (97, 100), (100, 100), (999, 1000),
                 (1000, 1000), (9973, 10_000), (10_000, 10_000), (2700, 1_000_000)):
        for confidence in ("0.95", "0.99"):
            alpha = 1 - mpf(confidence)
            for sides in (2, 1):
                a = alpha / sides
                low, high = clopper_pearson(k, n, a)
                name = f"{k} of {n}, {float(confidence) * 100:g} %"
                kind = "two-sided" if sides == 2 else "one-sided"
                how = {0: "high = 1 - a^(1/n)", n: "low = a^(1/n)"}.get(k, "binomial sum inverted by bisection")
                add("clopper-pearson", f"{name}, {kind} low", low, how,
                    stats.beta.ppf(float(a), k, n - k + 1) if k else 0.0)
                add("clopper-pearson", f"{name}, {kind} high", high, how,
                    stats.beta.ppf(1 - float(a), k + 1, n - k) if k < n else 1.0)


sums()
divider()
tails()
proportions()
write("exact.csv", """Exact figures of distributions; uniform-sum-n: n parts, each uniform from -1 to 1.
source: arithmetic, see sums.py; checked against scipy where it has the distribution
command: python3 -B exact.py""", ["case", "quantity", "value", "how"], ROWS)
