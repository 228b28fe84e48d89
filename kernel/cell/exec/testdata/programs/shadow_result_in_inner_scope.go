// A named result hidden in an inner block is returned explicitly.
package main

import (
	"fmt"
	"strconv"
)

func f(n int) (err error) {
	if n > 0 {
		err := fmt.Errorf("inner %d", n)
		if n > 1 {
			return err
		}
		_ = err
	}
	if _, err := strconv.Atoi("x"); err != nil && n < 0 {
		return fmt.Errorf("atoi: %w", err)
	}
	return
}

func main() {
	fmt.Println(f(0), f(1), f(2))
	fmt.Println(f(-1))
}
