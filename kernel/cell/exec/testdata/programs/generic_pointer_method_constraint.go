// A second parameter gives access to the pointer's methods.
package main

import (
	"fmt"
	"strings"
)

type setter[T any] interface {
	*T
	set(string)
}

func parseAll[T any, PT setter[T]](ss []string) []T {
	out := make([]T, len(ss))
	for i, s := range ss {
		PT(&out[i]).set(s)
	}
	return out
}

type size int

func (p *size) set(s string) { *p = size(len(s)) }

type up struct{ s string }

func (p *up) set(s string) { p.s = strings.ToUpper(s) }

func main() {
	fmt.Println(parseAll[size]([]string{"a", "bcd"}), parseAll[up]([]string{"x", "yz"}))
}
