// A compound assignment evaluates its operand's calls once.
package main

import "fmt"

func main() {
	n := 0
	f := func(p *int) int { *p++; return *p - 1 }
	s := []int{1, 2, 3, 4}
	s[f(&n)] += 10
	s[f(&n)]++
	s[f(&n)] <<= 2
	fmt.Println(s, n)
	get := func() *[4]int { n += 100; return &[4]int{} }
	get()[f(&n)%4] -= 5
	fmt.Println(n)
	type t struct{ x int }
	ts := []t{{1}, {2}}
	i := 0
	ts[f(&i)].x *= 7
	fmt.Println(ts, i)
}
