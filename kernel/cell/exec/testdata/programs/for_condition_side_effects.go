// The condition is evaluated before each turn.
package main

import "fmt"

func main() {
	xs := []int{1, 2, 3}
	pop := func() (x int, ok bool) {
		if len(xs) == 0 {
			return
		}
		x, xs = xs[0], xs[1:]
		return x, true
	}
	for x, ok := pop(); ok; x, ok = pop() {
		fmt.Print(x, " ")
	}
	n := 0
	for cond := func() bool { n++; return n < 4 }; cond(); {
		fmt.Print("n", n, " ")
	}
	fmt.Println(n)
}
