// Interfaces are equal if type and value are equal.
package main

import (
	"errors"
	"fmt"
)

func main() {
	type num int
	var a, b any = 1, 1
	fmt.Println(a == b, a == any(int64(1)), a == any(num(1)), any(num(1)) == any(num(1)), a == 1, a != "1")
	fmt.Println(any("x") == any("x"), any(1.0) == any(1), any(struct{ x int }{1}) == any(struct{ x int }{1}), any([2]int{1, 2}) == any([2]int{1, 2}))
	p := new(int)
	fmt.Println(any(p) == any(p), any(p) == any(new(int)), any(nil) == nil)
	e1, e2 := errors.New("a"), errors.New("a")
	fmt.Println(e1 == e2, e1 == e1)
}
