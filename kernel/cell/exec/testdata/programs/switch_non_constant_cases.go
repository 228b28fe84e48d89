// Cases may be expressions, evaluated in order until one matches.
package main

import "fmt"

func main() {
	log := ""
	f := func(s string, n int) int { log += s; return n }
	switch f("t", 2) {
	case f("a", 1), f("b", 2), f("c", 2):
		log += "!"
	case f("d", 2):
		log += "?"
	}
	fmt.Println(log)
	x, y := 5, 5
	switch 5 {
	case x:
		fmt.Println("x")
	case y:
		fmt.Println("y")
	}
	switch {
	case f("e", 1) == 2, f("f", 1) == 1:
		fmt.Println(log)
	}
}
