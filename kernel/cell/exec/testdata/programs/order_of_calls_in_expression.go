// Calls in an expression run from left to right.
package main

import (
	"fmt"
	"strconv"
)

func main() {
	log := ""
	f := func(n int) int { log += strconv.Itoa(n); return n }
	x := f(1)*f(2) + f(3) - f(4)/f(2)
	y := []int{f(5), f(6), f(7)}[f(1)]
	m := map[int]int{f(8): f(9)}
	fmt.Println(x, y, m, log)
	log = ""
	b := f(1) > f(2) || f(3) == 3 && f(4) > 5
	fmt.Println(b, log)
}
