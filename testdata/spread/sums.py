"""Exact distributions, to 40 digits: sums of uniform parts, the ratio of a
divider of two uniform parts, the normal, and limits of a proportion.

Sum of n uniform parts with half-widths a_1..a_n about zero (the volume of a
box cut by a plane, as an alternating sum over its corners):

    P(S <= s) = 1/(n! 2^n a_1..a_n) * sum over signs e of
                e_1*..*e_n * max(0, s + e_1 a_1 + .. + e_n a_n)^n

For two equal parts that is a triangle, for three a piecewise quadratic density.
"""

import itertools

from mpmath import binomial, erf, erfinv, factorial, mp, mpf, sqrt

mp.dps = 40


def bisect(f, low, high):
    """The root of an increasing f between low and high."""
    low, high = mpf(low), mpf(high)
    for _ in range(140):
        middle = (low + high) / 2
        if f(middle) < 0:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def uniform_sum_cdf(halves, s):
    n = len(halves)
    total, volume = mpf(0), factorial(n)
    for a in halves:
        volume *= 2 * mpf(a)
    for signs in itertools.product((1, -1), repeat=n):
        t, product = mpf(s), 1
        for e, a in zip(signs, halves):
            t += e * mpf(a)
            product *= e
        if t > 0:
            total += product * t**n
    return total / volume


def uniform_sum_quantile(halves, p):
    reach = sum(mpf(a) for a in halves)
    return bisect(lambda s: uniform_sum_cdf(halves, s) - mpf(p), -reach, reach)


def normal_cdf(z):
    return (1 + erf(mpf(z) / sqrt(2))) / 2


def normal_quantile(p):
    return sqrt(2) * erfinv(2 * mpf(p) - 1)


def divider_cdf(tolerance, t):
    """P(R2/(R1+R2) <= t) for two uniform parts 1 -/+ tolerance, for t <= 1/2.

    R2/(R1+R2) <= t  is  R2 <= m*R1 with m = t/(1-t): in the square from a to b
    that is a triangle with its corner at (b, a), of area (m*b - a)^2/(2*m).
    """
    a, b, t = 1 - mpf(tolerance), 1 + mpf(tolerance), mpf(t)
    m = t / (1 - t)
    return (m * b - a) ** 2 / (2 * m) / (b - a) ** 2 if m * b > a else mpf(0)


def divider_quantile(tolerance, p):
    """The inverse, p <= 1/2: the larger root m of
    b^2 m^2 - 2 (ab + p (b-a)^2) m + a^2 = 0, then t = m/(1+m)."""
    a, b, p = 1 - mpf(tolerance), 1 + mpf(tolerance), mpf(p)
    h = a * b + p * (b - a) ** 2
    m = (h + sqrt(h * h - a * a * b * b)) / b**2
    return m / (1 + m)


def tail(k, n, p):
    """P(X <= k) of n trials with probability p, summed term by term."""
    p = mpf(p)
    term = total = (1 - p) ** n
    for i in range(1, k + 1):
        term *= p * (n - i + 1) / (i * (1 - p))
        total += term
    return total


def clopper_pearson(k, n, alpha):
    """Limits of a proportion, k of n seen, each side wrong with probability
    alpha: p with P(X >= k) = alpha below, P(X <= k) = alpha above."""
    alpha = mpf(alpha)
    if k > n - k:  # fewer terms on the other side
        low, high = clopper_pearson(n - k, n, alpha)
        return 1 - high, 1 - low
    low = mpf(0)
    if k == 1:
        low = 1 - (1 - alpha) ** (mpf(1) / n)
    elif k > 1:
        low = bisect(lambda p: (1 - tail(k - 1, n, p)) - alpha, mpf(10) ** -30, mpf(k) / n)
    if k == 0:
        high = 1 - alpha ** (mpf(1) / n)
    else:
        high = bisect(lambda p: alpha - tail(k, n, p), mpf(k) / n, 1 - mpf(10) ** -12)
    return low, high
