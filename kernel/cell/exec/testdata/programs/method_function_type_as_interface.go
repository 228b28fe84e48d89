// A function type with a method serves as an interface implementation.
package main

import (
	"fmt"
	"strings"
)

type handler interface{ handle(string) string }
type handlerFunc func(string) string

func (f handlerFunc) handle(s string) string { return f(s) }
func chain(h handler, n int) handler {
	for range n {
		inner := h
		h = handlerFunc(func(s string) string { return "(" + inner.handle(s) + ")" })
	}
	return h
}

func main() {
	fmt.Println(chain(handlerFunc(strings.ToUpper), 3).handle("x"))
}
