// Booleans are compared, negated and named.
package main

import "fmt"

func main() {
	type on bool
	a, b := true, false
	fmt.Println(a == b, a != b, a && !b, a || b, !a == b)
	var o on = a == true
	o = o && on(b)
	fmt.Println(o, !o, on(3 > 2))
	x := map[bool]string{true: "yes", false: "no"}
	fmt.Println(x[1 < 2], x[!(1 < 2)])
	n := 0
	for _, c := range []bool{a, b, a} {
		if c {
			n++
		}
	}
	fmt.Printf("%d %t %v %5t|\n", n, a, o, b)
}
