// A pointer to a slice lets a function replace the slice.
package main

import "fmt"

func main() {
	push := func(s *[]int, x int) { *s = append(*s, x) }
	var s []int
	for i := range 3 {
		push(&s, i)
	}
	p := &s
	(*p)[0] = 50
	t := *p
	push(p, 9)
	fmt.Println(s, t, len(*p))
	a := [3]int{1, 2, 3}
	ap := &a
	ap[0], (*ap)[2] = ap[2], a[0]
	fmt.Println(a, *ap, len(ap))
}
