"""Helper of the hand-computed tables: collects lines of name, value, unit and
how, and writes them as CSV.

The tables use nothing but Python's exact fractions; π and ln 2 come from
their series, below. They know nothing of the program that they check: each
line states a formula of physics, its numbers and its result.

    python3 -B 10-supply-sense.py > 10-supply-sense.csv
    python3 -B 20-logic-rail.py > 20-logic-rail.csv
"""

import csv
import sys
from decimal import Decimal, getcontext
from fractions import Fraction

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
    def __init__(self):
        self.lines = []
        self.margins = 0

    def value(self, name, x, unit, how):
        """Adds a line and gives the value back for the next formula."""
        self.lines.append((name, x, unit, how))
        return x

    def margin(self, x, unit, how):
        """Adds the margin of the next requirement, in the order of the note."""
        self.margins += 1
        self.lines.append((f"requirement {self.margins}", x, unit, how))

    def write(self):
        out = csv.writer(sys.stdout, lineterminator="\n")
        out.writerow(["name", "si", "unit", "how"])
        for name, x, unit, how in self.lines:
            d = Decimal(x.numerator) / Decimal(x.denominator)
            # 20 significant digits, more than any float64 has.
            text = format(d, ".20g")
            mantissa, _, exponent = text.partition("e")
            if "." in mantissa:
                mantissa = mantissa.rstrip("0").rstrip(".")
            out.writerow([name, mantissa + ("e" + exponent if exponent else ""), unit, how])
