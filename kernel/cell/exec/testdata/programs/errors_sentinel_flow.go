// Errors are handed up, checked and turned into results.
package main

import (
	"errors"
	"fmt"
)

var errNeg, errBig = errors.New("negative"), errors.New("too big")

func check(n int) (int, error) {
	switch {
	case n < 0:
		return 0, errNeg
	case n > 99:
		return 0, fmt.Errorf("check %d: %w", n, errBig)
	}
	return n * 2, nil
}
func total(xs ...int) (sum int, err error) {
	for _, x := range xs {
		n, err := check(x)
		if err != nil {
			return sum, fmt.Errorf("total: %w", err)
		}
		sum += n
	}
	return
}

func main() {
	for _, xs := range [][]int{{1, 2}, {1, -2}, {5, 100}} {
		n, err := total(xs...)
		fmt.Println(n, err, errors.Is(err, errNeg), errors.Is(err, errBig))
	}
}
