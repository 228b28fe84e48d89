#!/bin/sh
# The divider of numpy_bench.py in numpy and in units, in one run: three
# sources at 1,000,000 boards, medians in ms. Needs python3-numpy.
#
#     testdata/spread/sidebyside.sh
set -e
cd "$(dirname "$0")/../.."
{
  /usr/bin/python3 -B testdata/spread/numpy_bench.py
  go test -run '^$' -bench '^BenchmarkDividerMillion$' -benchtime 15x ./units
} | awk '
  function figure(name) { for (i = 2; i <= NF; i++) { if ($i == name) return at ? $(i - 1) : $(i + 1) } }
  function line(who) { printf "%-6s %9.2f %9.2f %9.2f\n", who, figure("total_ms"), figure("compute_ms"), figure("draw_ms") }
  BEGIN { printf "%-6s %9s %9s %9s\n", "", "total ms", "compute", "draw" }
  /^numpy/ { at = 0; line("numpy") }
  /^BenchmarkDividerMillion/ { at = 1; line("units"); seen = 1 }
  /^(FAIL|panic)/ { print; exit 1 }
  END { if (!seen) exit 1 }'
