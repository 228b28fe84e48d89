// Types declared in functions serve as type arguments.
package main

import "fmt"

func wrap[T any](x T) []T { return []T{x, x} }
func key[K comparable](ks ...K) int {
	m := map[K]int{}
	for _, k := range ks {
		m[k]++
	}
	return len(m)
}
func f() any { type t struct{ n int }; return wrap(t{1}) }
func g() any { type t struct{ n int }; return wrap(t{1}) }

func main() {
	type p struct{ x, y int }
	fmt.Println(wrap(p{1, 2}), key(p{1, 2}, p{2, 1}, p{1, 2}), key[any](1, "1", 1.0, 1))
	fmt.Printf("%v %v\n", f(), g())
	fmt.Println(key(any(f()) != nil, true), wrap(struct{ a string }{"z"}))
}
