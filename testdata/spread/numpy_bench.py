"""The divider that the benchmark of random lanes is held against: three
sources (supply and two resistors, uniform) at 1,000,000 lanes, numpy.

    python3 -B numpy_bench.py     prints one line, median of 15 runs
"""

import statistics
import time

import numpy as np

LANES, RUNS = 1_000_000, 15


def draw(rng):
    return rng.uniform(4.75, 5.25, LANES), rng.uniform(9.9e3, 10.1e3, LANES), rng.uniform(4.653e3, 4.747e3, LANES)


def compute(v, r1, r2):
    y = v * r2 / (r1 + r2)
    return y.min(), y.max(), y.std()


def main():
    rng = np.random.default_rng(1)
    drawn, computed = [], []
    for _ in range(RUNS):
        start = time.perf_counter()
        lanes = draw(rng)
        middle = time.perf_counter()
        result = compute(*lanes)
        end = time.perf_counter()
        drawn.append(middle - start)
        computed.append(end - middle)
    both = [d + c for d, c in zip(drawn, computed)]
    ms = [1e3 * statistics.median(x) for x in (both, computed, drawn)]
    print(f"numpy {np.__version__} lanes {LANES} runs {RUNS} total_ms {ms[0]:.2f} compute_ms {ms[1]:.2f} "
          f"draw_ms {ms[2]:.2f} min {result[0]:.6f} max {result[1]:.6f} std {result[2]:.6f}")


main()
