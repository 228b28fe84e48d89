// Errors of a comparable value type are equal by value.
package main

import (
	"errors"
	"fmt"
	"strings"
)

type e struct{ n int }

func (x e) Error() string { return fmt.Sprintf("e%d", x.n) }

type l []string

func (x l) Error() string { return strings.Join(x, ",") }

func try(name string, f func()) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Println(name+":", r)
		}
	}()
	f()
}

func main() {
	var a, b error = e{1}, e{1}
	fmt.Println(a == b, a == e{2}, errors.Is(fmt.Errorf("%w", a), b))
	m := map[error]int{e{1}: 1, e{2}: 2}
	fmt.Println(m[b], m[errors.New("e1")])
	var c, d error = l{"x"}, l{"x"}
	try("list", func() { fmt.Println(c == d) })
	fmt.Println(errors.Is(c, d), c != a)
}
