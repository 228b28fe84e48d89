// An interface may name itself in its methods.
package main

import "fmt"

type visitor interface{ visit(visitor) string }
type v string

func (a v) visit(b visitor) string {
	if b == nil {
		return string(a)
	}
	return string(a) + b.visit(nil)
}

type num interface {
	plus(num) num
	val() int
}
type n int

func (a n) plus(b num) num { return n(a.val() + b.val()) }
func (a n) val() int       { return int(a) }

func main() {
	fmt.Println(v("x").visit(v("y")), v("z").visit(nil))
	var sum num = n(0)
	for i := range 5 {
		sum = sum.plus(n(i))
	}
	fmt.Println(sum, sum.val())
}
