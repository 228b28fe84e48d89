"""Published worst-case and root-sum-square examples of circuits, recomputed.

Sources, and how far they were seen:
  Helfrick and Cooper, Modern Electronic Instrumentation and Measurement
      Techniques, 2009, example 1-13, page 15: read in the FOSSEE Scilab
      companion (github.com/FOSSEE/Scilab-TBC-Uploads, 174/CH1/EX1.13).
  FOSSEE companion 3830, chapter 1, examples 1.1 and 1.29 (same repository,
      3830/CH1): read; the printed book was not seen.
  Jaeger and Blalock, Microelectronic Circuit Design, example 1.5: from memory;
      its figures are those of the arithmetic shown.
  No public handbook of worst-case analysis with extremes, root-sum-square and
      Monte Carlo of one circuit could be read; the feedback divider in hand.py
      is worked by hand in its place.

    python3 -B worstcase.py     (about 5 s) writes worstcase.csv,
        worstcase_inputs.csv and worstcase_expected.csv
"""

from witness import *

DRAWS = 2_000_000
SEED = 20090101  # of case k: SEED + k
HC = "Helfrick and Cooper, example 1-13, p. 15"
F1 = "FOSSEE 3830, example 1.1"
F29 = "FOSSEE 3830, example 1.29"
JB = "Jaeger and Blalock, example 1.5, from memory"

CASES = [  # case, what, unit, expression, inputs, expectations
    ("three-precision-resistors", "an output that goes as R1 R2/R3, parts of 0.1 %", "1", "R1*R2/R3",
     [percent("R1", 1, 0.1), percent("R2", 1, 0.1), percent("R3", 1, 0.1)],
     [("corner_high", 1.003, 0.0005, "printed", HC + ": 0.3 %, the sum of the tolerances"),
      ("corner_low", 0.997, 0.0005, "printed", HC + ": 0.3 %"),
      ("corner_high", 1.001 * 1.001 / 0.999, 1e-12, "exact", "1.001^2/0.999 = 1.003004..."),
      ("corner_low", 0.999 * 0.999 / 1.001, 1e-12, "exact",
       "0.999^2/1.001 = 0.997004...; the companion divides by 1.003, a slip")]),
    ("power-rss", "I²R, probable error as root-sum-square of the half-widths", "W", "I*I*R",
     [plus_minus("I", 10, 0.1), plus_minus("R", 100, 2)],
     [("nominal", 10e3, 0.5, "printed", F1 + ": 10 kW"),
      ("rss", 283, 0.5, "printed", F1 + ": 283 W"),
      ("rss", math.sqrt(200**2 + 200**2), 1e-9, "exact", "sqrt((10^2*2)^2 + (2*10*100*0.1)^2)"),
      ("corner_high", 10.1**2 * 102, 1e-9, "exact", "10.1^2*102"),
      ("corner_low", 9.9**2 * 98, 1e-9, "exact", "9.9^2*98")]),
    ("series-three", "three resistors of 5 % in series", "Ω", "R1+R2+R3",
     [percent("R1", 200, 5), percent("R2", 100, 5), percent("R3", 50, 5)],
     [("corner_high", 367.5, 1e-9, "printed", F29 + ": 5 %, 17.5 ohm"),
      ("corner_low", 332.5, 1e-9, "printed", F29 + ": 5 %, 17.5 ohm")]),
    ("parallel-three", "the same in parallel", "Ω", "R1*R2*R3/(R1*R2+R1*R3+R2*R3)",
     [percent("R1", 200, 5), percent("R2", 100, 5), percent("R3", 50, 5)],
     [("corner_high", 30.0, 1e-9, "exact", "5 %: all three scale together; 200/7*1.05"),
      ("corner_low", 200 / 7 * 0.95, 1e-9, "exact", "200/7*0.95"),
      ("wrong_half_width", 7.1429, 0.0001, "printed",
       F29 + ": 25 %, because each use of a resistor counts as another one; must NOT come out")]),
    ("divider-worst", "divider at a 10 % source, parts of 5 %", "V", "V*R1/(R1+R2)",
     [percent("V", 15, 10), percent("R1", 18e3, 5), percent("R2", 36e3, 5)],
     [("nominal", 5.0, 0.005, "printed", JB), ("corner_high", 5.87, 0.005, "printed", JB),
      ("corner_low", 4.20, 0.005, "printed", JB),
      ("corner_high", 16.5 * 18.9 / (18.9 + 34.2), 1e-12, "exact", "16.5*18.9/(18.9+34.2)"),
      ("corner_low", 13.5 * 17.1 / (17.1 + 37.8), 1e-12, "exact", "13.5*17.1/(17.1+37.8)")]),
    ("divider-worst-current", "its source current", "A", "V/(R1+R2)",
     [percent("V", 15, 10), percent("R1", 18e3, 5), percent("R2", 36e3, 5)],
     [("nominal", 278e-6, 0.5e-6, "printed", JB), ("corner_high", 322e-6, 0.5e-6, "printed", JB),
      ("corner_low", 238e-6, 0.5e-6, "printed", JB),
      ("corner_high", 16.5 / 51.3e3, 1e-15, "exact", "16.5/51300"),
      ("corner_low", 13.5 / 56.7e3, 1e-15, "exact", "13.5/56700")]),
]


def main():
    rows, inputs, expected = [], [], []
    for k, (case, what, unit, expression, parts, wanted) in enumerate(CASES):
        line = row(case, what, unit, expression, parts, DRAWS, SEED + k)
        found = dict(zip(COLUMNS, line))
        # All parts are uniform: the root-sum-square of the half-widths is
        # sqrt(3) times the first-order standard deviation.
        found["rss"] = found["std_linear"] * math.sqrt(3)
        for quantity, value, tolerance, kind, where in wanted:
            if quantity in found and abs(found[quantity] - value) > tolerance:
                raise ValueError(f"{case} {quantity}: {kind} {value!r}, computed {found[quantity]!r}")
            expected.append([case, quantity, value, tolerance, kind, where])
        rows.append(line)
        inputs += input_rows(case, parts)
    about = "source: the publications named in worstcase.py\ncommand: python3 -B worstcase.py"
    write("worstcase.csv", f"""Published worst-case examples, computed by numpy and python3-uncertainties.
{about} ({DRAWS} draws, PCG64, seed of row k counted from 0: {SEED} + k)""", COLUMNS, rows)
    write("worstcase_inputs.csv", f"Inputs of worstcase.csv.\n{about}", INPUT_COLUMNS, inputs)
    write("worstcase_expected.csv", f"""What the publications print, and exact values. rss is sqrt(3) std_linear.
{about}""", ["case", "quantity", "value", "tolerance", "kind", "where"], expected)


main()
