// A stack calculator with a map of operations.
package main

import (
	"fmt"
	"strconv"
	"strings"
)

func main() {
	ops := map[string]func(a, b float64) float64{
		"+": func(a, b float64) float64 { return a + b }, "-": func(a, b float64) float64 { return a - b },
		"*": func(a, b float64) float64 { return a * b }, "/": func(a, b float64) float64 { return a / b },
	}
	eval := func(s string) (float64, error) {
		var st []float64
		for _, w := range strings.Fields(s) {
			if f, ok := ops[w]; ok {
				if len(st) < 2 {
					return 0, fmt.Errorf("too few operands for %q", w)
				}
				n := len(st)
				st = append(st[:n-2], f(st[n-2], st[n-1]))
			} else if x, err := strconv.ParseFloat(w, 64); err == nil {
				st = append(st, x)
			} else {
				return 0, err
			}
		}
		return st[0], nil
	}
	for _, s := range []string{"3 4 + 2 *", "5 1 2 + 4 * + 3 -", "1 +", "2 x"} {
		fmt.Println(eval(s))
	}
}
