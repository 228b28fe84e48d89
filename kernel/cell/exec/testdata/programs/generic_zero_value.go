// The zero value of a type parameter depends on the instance.
package main

import "fmt"

func zero[T any]() T { var z T; return z }
func orElse[T comparable](x, def T) T {
	if x == *new(T) {
		return def
	}
	return x
}
func isNil[T any](x T) bool { return any(x) == nil }

func main() {
	fmt.Println(zero[int](), zero[string]() == "", zero[[]int]() == nil, zero[[2]bool](), zero[*int]() == nil, zero[struct{ a int }]())
	fmt.Println(orElse(0, 5), orElse("", "d"), orElse(3, 5), isNil(zero[error]()), isNil(zero[*int]()))
	fmt.Printf("%T %T\n", zero[error](), zero[map[string]int]())
}
