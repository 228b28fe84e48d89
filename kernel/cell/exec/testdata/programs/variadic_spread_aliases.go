// A spread slice is passed itself, listed arguments make a new one.
package main

import "fmt"

func set(xs ...int) {
	if len(xs) > 0 {
		xs[0] = 99
	}
}
func grow(xs ...int) []int { return append(xs, 1) }
func keep(xs ...*int) *int { return xs[len(xs)-1] }

func main() {
	s := []int{1, 2, 3}
	set(s...)
	fmt.Println(s)
	set(s[0], s[1])
	fmt.Println(s)
	t := make([]int, 1, 4)
	u := grow(t...)
	v := append(t, 50)
	fmt.Println(u, v, len(t))
	a, b := 1, 2
	*keep(&a, &b) = 20
	fmt.Println(a, b)
}
