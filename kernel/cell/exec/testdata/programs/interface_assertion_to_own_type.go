// Assertions from an interface to itself, to any and to an unrelated one.
package main

import "fmt"

type a interface{ m() }
type b interface {
	m()
	n()
}
type x struct{}

func (x) m() {}

type y struct{ x }

func (y) n() {}

func main() {
	for _, v := range []a{x{}, y{}, &x{}, &y{}, nil} {
		_, isA := v.(a)
		_, isB := v.(b)
		_, isAny := v.(any)
		_, isErr := v.(error)
		_, isX := v.(x)
		fmt.Println(isA, isB, isAny, isErr, isX)
	}
}
