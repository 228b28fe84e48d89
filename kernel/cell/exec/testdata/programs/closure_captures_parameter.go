// A parameter can be captured and changed after the call returned.
package main

import "fmt"

func adder(sum int) func(int) int {
	return func(x int) int { sum += x; return sum }
}

func main() {
	f, g := adder(0), adder(100)
	for i := range 4 {
		fmt.Println(f(i), g(-i))
	}
}
