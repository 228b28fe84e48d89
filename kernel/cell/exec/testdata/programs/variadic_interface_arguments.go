// A slice passed to a variadic of interfaces is one argument unless spread.
package main

import "fmt"

func main() {
	f := func(xs ...any) int { return len(xs) }
	a := []any{1, 2, 3}
	b := []int{1, 2}
	fmt.Println(f(a), f(a...), f(b), f(), f(nil), f(nil, nil), f([]any(nil)...), f(f, a))
	fmt.Println(a...)
	fmt.Println(fmt.Sprint(b, a))
}
