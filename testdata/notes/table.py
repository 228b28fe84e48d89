"""Helper of the hand-computed tables: collects lines of name, value, unit and
how, and writes them as CSV.

The tables use nothing but Python's exact fractions, and decimals of 40 digits
where there are roots; π and ln 2 come from
their series, below. They know nothing of the program that they check: each
line states a formula of physics, its numbers and its result.

    python3 -B 05-supply-input.py > 05-supply-input.csv
    python3 -B 10-supply-sense.py > 10-supply-sense.csv
    python3 -B 20-logic-rail.py > 20-logic-rail.csv
    python3 -B 30-sensor-rail.py > 30-sensor-rail.csv
    python3 -B 40-step-down.py > 40-step-down.csv
    python3 -B 80-heat.py > 80-heat.csv
    python3 -B 45-loop.py > 45-loop.csv
    python3 -B 50-step-up.py > 50-step-up.csv
    python3 -B 60-negative-rail.py > 60-negative-rail.csv
    python3 -B 70-ripple.py > 70-ripple.csv
    python3 -B 90-battery.py > 90-battery.csv
    python3 -B 95-power-tree.py > 95-power-tree.csv
    python3 -B 97-second-rail.py > 97-second-rail.csv

A note whose values need roots, exponentials and logarithms computes in
decimals of 40 digits instead of fractions, with the functions of Python's
decimal module, which are correctly rounded.
"""

import csv
import sys
from decimal import Decimal, getcontext
from fractions import Fraction
from itertools import product

getcontext().prec = 40


def F(text):
    """An exact number, from its decimal spelling."""
    return Fraction(text)


def _arctan_inverse(n):
    """arctan(1/n) = 1/n - 1/(3 n^3) + 1/(5 n^5) - ..., to 1e-50."""
    total, power, k = Fraction(0), Fraction(1, n), 0
    while power > Fraction(1, 10**50):
        total += power / (2 * k + 1) * (-1) ** k
        power /= n * n
        k += 1
    return total


# Machin 1706: π/4 = 4 arctan(1/5) - arctan(1/239).
PI = 4 * (4 * _arctan_inverse(5) - _arctan_inverse(239))

# ln 2 = 2 artanh(1/3) = 2 (1/3 + 1/(3·3^3) + 1/(5·3^5) + ...), to 1e-50.
LN2 = 2 * sum(Fraction(1, (2 * k + 1) * 3 ** (2 * k + 1)) for k in range(110))

# First digits as any table of constants prints them.
assert str(Decimal(PI.numerator) / Decimal(PI.denominator)).startswith("3.14159265358979323846")
assert str(Decimal(LN2.numerator) / Decimal(LN2.denominator)).startswith("0.69314718055994530941")


class Table:
    """The lines of one note, and how far each goes over the note's sources.

    sources gives, for each value with limits, its lower limit, its usual value
    and its upper limit. The body of the note is computed at the usual values,
    which makes the lines, and then at every corner: in these notes every value
    rises or falls all the way with each of its sources, so its extremes are at
    corners. level names values that depend on a source but are the same at all
    corners.
    """

    def __init__(self, sources, level=()):
        self.level = level
        self.sources = {name: tuple(F(x) for x in limits) for name, limits in sources.items()}

    def run(self, body):
        def once(at):
            lines, margins = {}, [0]

            def value(name, x, unit, how):
                lines[name] = (x, unit, how)
                return x

            def margin(x, unit, how):
                margins[0] += 1
                lines[f"requirement {margins[0]}"] = (x, unit, how)

            body(value, margin, at)
            return lines

        self.lines = once({name: limits[1] for name, limits in self.sources.items()})
        self.low = {name: line[0] for name, line in self.lines.items()}
        self.high = dict(self.low)
        for corner in product(*((limits[0], limits[2]) for limits in self.sources.values())):
            for name, line in once(dict(zip(self.sources, corner))).items():
                self.low[name] = min(self.low[name], line[0])
                self.high[name] = max(self.high[name], line[0])

    def write(self, spread=()):
        """spread names values that depend on sources and are the same all the
        same, such as a product with zero: their limits are written too."""
        out = csv.writer(sys.stdout, lineterminator="\n")
        out.writerow(["name", "si", "unit", "how", "low_si", "high_si"])
        for name, (x, unit, how) in self.lines.items():
            low, high = self.low[name], self.high[name]
            exact = low == high and name not in self.level and name not in spread
            out.writerow([name, number(x), unit, how] + (["", ""] if exact else [number(low), number(high)]))


def number(x):
    """20 significant digits, more than any float64 has."""
    if isinstance(x, Fraction):
        x = Decimal(x.numerator) / Decimal(x.denominator)
    text = format(+x, ".20g")
    mantissa, _, exponent = text.partition("e")
    if "." in mantissa:
        mantissa = mantissa.rstrip("0").rstrip(".")
    return mantissa + ("e" + exponent if exponent else "")
