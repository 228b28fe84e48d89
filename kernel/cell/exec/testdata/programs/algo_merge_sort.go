// A merge sort of strings leaves its input and is stable.
package main

import (
	"fmt"
	"strings"
)

func merge(xs []string) []string {
	if len(xs) < 2 {
		return xs
	}
	a, b := merge(xs[:len(xs)/2]), merge(xs[len(xs)/2:])
	out := make([]string, 0, len(xs))
	for len(a) > 0 && len(b) > 0 {
		if b[0][0] < a[0][0] {
			out, b = append(out, b[0]), b[1:]
		} else {
			out, a = append(out, a[0]), a[1:]
		}
	}
	return append(append(out, a...), b...)
}

func main() {
	xs := strings.Fields("d1 b1 d2 a1 b2 c1 a2 d3")
	fmt.Println(merge(xs), xs)
}
