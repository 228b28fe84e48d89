// Struct, array and empty types work as type arguments.
package main

import "fmt"

func eq[T comparable](a, b T) bool { return a == b }
func swap[T any](a, b *T)          { *a, *b = *b, *a }
func dup[T any](x T) [2]T          { return [2]T{x, x} }

func try(name string, f func()) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Println(name+":", r)
		}
	}()
	f()
}

func main() {
	type e struct{}
	x, y := [2]int{1, 2}, [2]int{3, 4}
	swap(&x, &y)
	fmt.Println(x, y, eq(x, y), eq(e{}, e{}), eq(struct{ a any }{1}, struct{ a any }{1}))
	d := dup([]int{1})
	d[0][0] = 9
	f := dup([1]int{1})
	f[0][0] = 9
	fmt.Println(d, f, dup(e{}), dup(dup("z")))
	try("uncomparable", func() { fmt.Println(eq[any]([]int{}, []int{})) })
}
