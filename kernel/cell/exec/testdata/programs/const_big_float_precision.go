// Constant expressions are exact where float64 variables round.
package main

import "fmt"

func main() {
	const third = 1.0 / 3
	const x = third * 3
	a := 1.0
	b := 3.0
	fmt.Println(x == 1, a/b*b == 1, 0.1+0.2 == 0.3)
	p, q := 0.1, 0.2
	fmt.Println(p+q == 0.3, p+q, 1e308*10/1e10)
	const tiny = 1e-400 * 1e300
	fmt.Println(tiny * 1e50)
}
