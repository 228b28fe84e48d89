// A constraint of the form ~[]E gives back the named slice type.
package main

import (
	"cmp"
	"fmt"
	"sort"
)

type ids []int

func (x ids) total() (t int) {
	for _, v := range x {
		t += v
	}
	return
}
func keep[S ~[]E, E any](s S, ok func(E) bool) S {
	out := make(S, 0, len(s))
	for _, e := range s {
		if ok(e) {
			out = append(out, e)
		}
	}
	return out
}
func keys[M ~map[K]V, K cmp.Ordered, V any](m M) []K {
	var ks []K
	for k := range m {
		ks = append(ks, k)
	}
	sort.Slice(ks, func(i, j int) bool { return ks[i] < ks[j] })
	return ks
}

func main() {
	x := keep(ids{1, 2, 3, 4}, func(n int) bool { return n > 2 })
	fmt.Println(x.total(), x, keys(map[string]int{"b": 1, "a": 2}), keys(map[float64]bool{2.5: true, -1: false}))
	fmt.Printf("%T\n", x)
}
