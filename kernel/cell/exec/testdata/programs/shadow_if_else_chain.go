// Variables of an if's init statement are seen in all its branches.
package main

import "fmt"

func main() {
	f := func(n int) string {
		if a := n * 2; a > 10 {
			return fmt.Sprintf("a %d", a)
		} else if b := a + 1; b > 5 {
			a, c := "shadow", b
			return fmt.Sprintf("b %d %s %d", b, a, c)
		} else if a := a - 100; a == b-101 {
			return fmt.Sprintf("c %d %d", a, b)
		} else {
			return "d"
		}
	}
	fmt.Println(f(6), f(3), f(1))
}
