// The index is evaluated before the call on the right side changes it.
package main

import "fmt"

func main() {
	s := []int{0, 0, 0}
	i := 0
	next := func() int { i++; return i * 10 }
	s[next()/10] = next()
	fmt.Println(s, i)
	m := map[int]int{}
	k := func() int { i *= 2; return i }
	m[k()], m[k()] = k(), k()
	fmt.Println(m, i)
}
