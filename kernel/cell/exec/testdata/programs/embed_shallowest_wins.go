// The field at the shallowest depth wins over deeper ones.
package main

import "fmt"

type l3 struct{ n, m int }
type l2 struct {
	l3
	n int
}
type l1 struct {
	l2
	m string
}

func main() {
	v := l1{l2{l3{1, 2}, 3}, "four"}
	fmt.Println(v.n, v.m, v.l2.m, v.l3.n, v.l2.l3.m)
	v.n, v.l3.n = 30, 10
	fmt.Println(v)
	fmt.Printf("%+v\n", v)
}
