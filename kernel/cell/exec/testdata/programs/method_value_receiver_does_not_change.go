// A value method works on a copy of the receiver.
package main

import "fmt"

type s struct {
	n  int
	a  [2]int
	xs []int
}

func (v s) change() s { v.n = 9; v.a[0] = 9; v.xs[0] = 9; return v }

func main() {
	v := s{1, [2]int{1, 2}, []int{1, 2}}
	w := v.change()
	fmt.Println(v, w)
}
