// Pointers give access to variables, elements and fields.
package main

import "fmt"

func main() {
	x := 1
	p := &x
	q := p
	*q += 5
	pp := &p
	**pp *= 2
	fmt.Println(x, *p == *q, p == q, *pp == p)
	y := 3
	*pp = &y
	*p = 30
	fmt.Println(x, y, p == q, *new(int), *new(string) == "")
	s := []int{1, 2}
	e := &s[1]
	*e = 20
	fmt.Println(s)
}
