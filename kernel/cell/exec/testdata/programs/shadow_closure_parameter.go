// A function literal's parameter hides a captured name.
package main

import "fmt"

func main() {
	x, y := 1, 2
	f := func(x int) int { y = x; return x * 2 }
	g := func() (x int) { x = y * 100; return }
	a, b := f(10), g()
	fmt.Println(a, b, x, y)
	h := func(x, _ int, _ string) func(int) int { return func(y int) int { return x - y } }
	fmt.Println(h(5, 0, "")(3))
}
