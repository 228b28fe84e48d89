// Parameters and named results are shadowed in inner blocks only.
package main

import "fmt"

func f(x int) (r int) {
	{
		x, r := x+1, 100
		_, _ = x, r
	}
	if r := x * 2; r > 0 {
		x = r
	}
	for x := range 3 {
		r += x
	}
	func(x int) { r += x }(1000)
	return r + x
}

func main() {
	fmt.Println(f(5), f(-5))
}
