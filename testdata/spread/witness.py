"""Helper of the scripts in this folder: evaluates an expression of named
inputs with numpy and with python3-uncertainties, and writes the tables.

It knows nothing of the program that the tables check. An expression is
written so that Python and Go both read it: + - * /, brackets, decimal
numbers, names, Pi, and the functions Sqrt Exp Ln Log10 Pow Abs Sin Cos Atan
Min Max Parallel. Each table holds it twice: as written, and as reverse Polish
words, which need no grammar.

An input has a nominal, a low and a high limit, a shape and its standard
deviation:

    uniform     sigma = (high - low)/2/sqrt(3)
    triangular  sigma = (high - low)/2/sqrt(6), top in the middle
    arcsine     sigma = (high - low)/2/sqrt(2)
    normal      low and high are nominal -/+ 3 sigma; not cut off there
    range       swept, never drawn: no standard deviation
    exact       low = nominal = high

Debian 12: apt-get install python3-numpy python3-scipy python3-uncertainties
"""

import ast
import csv
import itertools
import math
import sys

import numpy as np
import scipy
import uncertainties
import uncertainties.umath as umath
from scipy.optimize import minimize

DIVISOR = {"uniform": math.sqrt(3), "triangular": math.sqrt(6), "arcsine": math.sqrt(2), "normal": 3.0}
PERCENTS = (0.135, 2.5, 50.0, 97.5, 99.865)
FUNCTIONS = {  # name: (numpy, uncertainties); None: any number of arguments
    "Sqrt": (np.sqrt, umath.sqrt),
    "Exp": (np.exp, umath.exp),
    "Ln": (np.log, umath.log),
    "Log10": (np.log10, umath.log10),
    "Abs": (np.abs, abs),
    "Sin": (np.sin, umath.sin),
    "Cos": (np.cos, umath.cos),
    "Atan": (np.arctan, umath.atan),
    "Pow": (np.power, lambda x, n: x**n),
    "Min": (np.minimum, min),
    "Max": (np.maximum, max),
    "Parallel": (lambda x, y: x * y / (x + y), lambda x, y: x * y / (x + y)),
}
OPERATORS = {ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/"}


def rpn(expression):
    """The words of an expression in reverse Polish order; neg is the sign."""
    words = []

    def walk(node):
        if isinstance(node, ast.BinOp):
            walk(node.left)
            walk(node.right)
            words.append(OPERATORS[type(node.op)])
        elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
            walk(node.operand)
            words.append("neg")
        elif isinstance(node, ast.Call):
            for argument in node.args:
                walk(argument)
            if node.func.id not in FUNCTIONS:
                raise ValueError(f"{node.func.id} is unknown")
            # Min, Max and Parallel of three are that of two, twice.
            pairs = len(node.args) - 1 if node.func.id in ("Min", "Max", "Parallel") else 1
            words.extend([node.func.id] * pairs)
        elif isinstance(node, ast.Name):
            words.append(node.id)
        elif isinstance(node, ast.Constant):
            words.append(repr(float(node.value)))
        else:
            raise ValueError(ast.dump(node))

    walk(ast.parse(expression, mode="eval").body)
    return words


def evaluate(words, values, uncertain=False):
    """The value of reverse Polish words; values are floats, arrays or, with
    uncertain, numbers of python3-uncertainties."""
    stack = []
    for word in words:
        if word == "neg":
            stack.append(-stack.pop())
        elif word in ("+", "-", "*", "/"):
            y, x = stack.pop(), stack.pop()
            stack.append(x + y if word == "+" else x - y if word == "-" else x * y if word == "*" else x / y)
        elif word in FUNCTIONS:
            function = FUNCTIONS[word][uncertain]
            if word in ("Pow", "Min", "Max", "Parallel"):
                y, x = stack.pop(), stack.pop()
                stack.append(function(x, y))
            else:
                stack.append(function(stack.pop()))
        elif word == "Pi":
            stack.append(math.pi)
        elif word in values:
            stack.append(values[word])
        else:
            stack.append(float(word))
    (result,) = stack
    return result


class Input:
    """One toleranced part, one range or one exact number."""

    def __init__(self, name, nominal, low, high, shape="uniform"):
        self.name, self.nominal, self.low, self.high, self.shape = name, nominal, low, high, shape
        self.sigma = (high - low) / 2 / DIVISOR[shape] if shape in DIVISOR else 0.0

    def draw(self, rng, n):
        middle, half = (self.low + self.high) / 2, (self.high - self.low) / 2
        if self.shape == "uniform":
            return rng.uniform(self.low, self.high, n)
        if self.shape == "triangular":
            return rng.triangular(self.low, middle, self.high, n)
        if self.shape == "arcsine":
            return middle + half * np.sin(2 * np.pi * rng.random(n))
        if self.shape == "normal":
            return rng.normal(middle, self.sigma, n)
        return self.nominal


def percent(name, nominal, tolerance, shape="uniform"):
    """A part of nominal value with a tolerance of so many percent."""
    return Input(name, nominal, nominal * (1 - tolerance / 100), nominal * (1 + tolerance / 100), shape)


def plus_minus(name, nominal, half, shape="uniform"):
    return Input(name, nominal, nominal - half, nominal + half, shape)


def normal(name, nominal, sigma):
    return Input(name, nominal, nominal - 3 * sigma, nominal + 3 * sigma, "normal")


def exact(name, value):
    return Input(name, value, value, value, "exact")


def corners(words, inputs):
    """Lowest and highest value over all 2^n corners, each with its corner as a
    string of - and + in the order of the inputs (. for an exact one)."""
    moving = [i for i in inputs if i.low != i.high]
    grid = {i.name: i.nominal for i in inputs}
    ends = np.array(list(itertools.product((0, 1), repeat=len(moving))), dtype=bool)
    for column, i in enumerate(moving):
        grid[i.name] = np.where(ends[:, column], i.high, i.low)
    values = evaluate(words, grid)
    if not np.all(np.isfinite(values)):
        raise ValueError("a corner is not finite")

    def sign(row):
        signs = iter(ends[row])
        return "".join("." if i.low == i.high else "+" if next(signs) else "-" for i in inputs)

    low, high = int(np.argmin(values)), int(np.argmax(values))
    return float(values[low]), sign(low), float(values[high]), sign(high)


def box(words, inputs, span, seed):
    """Lowest and highest value over the whole box, by bounded minimisation from
    60 starts: not a proof, but an independent search."""
    moving = [i for i in inputs if i.low != i.high]
    rng = np.random.default_rng(seed)
    nominal = evaluate(words, {i.name: i.nominal for i in inputs})

    def at(x, sign):
        values = {i.name: i.nominal for i in inputs}
        values.update({i.name: i.low + t * (i.high - i.low) for i, t in zip(moving, x)})
        return sign * float(evaluate(words, values) - nominal) / span

    best = []
    for sign in (1, -1):
        found = min(
            minimize(at, rng.random(len(moving)), (sign,), "L-BFGS-B", bounds=[(0, 1)] * len(moving)).fun
            for _ in range(60)
        )
        best.append(float(nominal + sign * found * span))
    return best


def linear(words, inputs):
    """Standard deviation by first-order propagation, and the share of each
    input in the variance, both by python3-uncertainties."""
    values = {
        i.name: uncertainties.ufloat(i.nominal, i.sigma) if i.sigma else i.nominal for i in inputs
    }
    y = evaluate(words, values, True)
    parts = {i.name: 0.0 for i in inputs}
    for variable, error in y.error_components().items():
        for name, value in values.items():
            if value is variable:
                parts[name] = error**2
    total = sum(parts.values())
    return y.std_dev, [parts[i.name] / total if total else 0.0 for i in inputs]


def monte_carlo(words, inputs, n, seed):
    """Mean, standard deviation and percentiles of n draws, each followed by
    its standard error."""
    rng = np.random.default_rng(seed)
    y = evaluate(words, {i.name: i.draw(rng, n) for i in inputs})
    return describe(y)


def describe(y):
    """Statistics of a sample, each with its standard error. That of a
    percentile needs no density: it is half the distance of the order
    statistics one binomial standard deviation below and above."""
    n = len(y)
    mean, std = float(np.mean(y)), float(np.std(y, ddof=1))
    kurtosis = float(np.mean((y - mean) ** 4)) / std**4
    out = [mean, std / math.sqrt(n), std, std * math.sqrt((kurtosis - 1) / (4 * n))]
    ordered = np.sort(y)
    for p in PERCENTS:
        q = p / 100
        d = math.sqrt(n * q * (1 - q))
        below, above = ordered[int(n * q - d)], ordered[int(n * q + d)]
        out += [float(np.quantile(ordered, q)), float(above - below) / 2]
    return out


def row(case, what, unit, expression, inputs, draws, seed):
    """One line of a table with the columns COLUMNS."""
    words = rpn(expression)
    nominal = float(evaluate(words, {i.name: i.nominal for i in inputs}))
    low, low_at, high, high_at = corners(words, inputs)
    box_low, box_high = box(words, inputs, high - low or 1.0, seed)
    # The search is good to about a millionth of the spread; what it finds
    # closer to a corner than that is the corner.
    slack = 1e-6 * (high - low)
    if box_low > low + slack or box_high < high - slack:
        raise ValueError(f"{case}: the search missed a corner")
    beyond = " ".join((["low"] if box_low < low - slack else []) + (["high"] if box_high > high + slack else []))
    box_low = box_low if box_low < low - slack else low
    box_high = box_high if box_high > high + slack else high
    std, shares = linear(words, inputs)
    return [case, what, unit, expression, " ".join(words), nominal, low, low_at, high, high_at, beyond or "no",
            box_low, box_high, std, " ".join(f"{s:.9f}" for s in shares)] + monte_carlo(words, inputs, draws, seed)


STATISTICS = ["mc_mean", "mc_mean_se", "mc_std", "mc_std_se"] + [
    f"mc_p{p:g}{suffix}" for p in PERCENTS for suffix in ("", "_se")
]
COLUMNS = ["case", "what", "unit", "expr", "rpn", "nominal", "corner_low", "corner_low_at", "corner_high",
           "corner_high_at", "beyond_corners", "box_low", "box_high", "std_linear", "variance_shares"] + STATISTICS
INPUT_COLUMNS = ["case", "name", "nominal", "low", "high", "shape", "sigma"]


def input_rows(case, inputs):
    return [[case, i.name, i.nominal, i.low, i.high, i.shape, i.sigma] for i in inputs]


def number(x):
    return repr(float(x)) if isinstance(x, (float, np.floating)) else str(x)


def write(path, comment, columns, rows):
    """A CSV table: comment lines with #, then the columns, then the rows."""
    with open(path, "w", encoding="utf-8", newline="") as f:
        for line in comment.strip().splitlines():
            f.write(("# " + line).rstrip() + "\n")
        f.write(
            f"# versions: Python {sys.version_info.major}.{sys.version_info.minor}, numpy {np.__version__},"
            f" scipy {scipy.__version__}, uncertainties {uncertainties.__version__}\n"
        )
        out = csv.writer(f, lineterminator="\n")
        out.writerow(columns)
        out.writerows([[number(x) for x in row] for row in rows])
