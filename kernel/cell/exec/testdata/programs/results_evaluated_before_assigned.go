// A return with named results evaluates all before it sets any.
package main

import "fmt"

func f() (a, b int) {
	a, b = 1, 2
	return b, a
}
func g() (s []int, n int) {
	s = []int{1, 2, 3}
	return s[:1], len(s)
}
func h() (x int, p *int) { p = &x; x = 5; return x + 1, p }

func main() {
	fmt.Println(f())
	fmt.Println(g())
	x, p := h()
	fmt.Println(x, *p)
}
