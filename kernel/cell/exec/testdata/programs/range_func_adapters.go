// Iterators are filtered and cut by functions on iterators.
package main

import "fmt"

type seq[T any] func(func(T) bool)

func nat(yield func(int) bool) {
	for i := 0; yield(i); i++ {
	}
}
func filter[T any](s seq[T], ok func(T) bool) seq[T] {
	return func(yield func(T) bool) {
		for x := range s {
			if ok(x) && !yield(x) {
				return
			}
		}
	}
}
func take[T any](s seq[T], n int) seq[T] {
	return func(yield func(T) bool) {
		i := 0
		for x := range s {
			if i++; !yield(x) || i == n {
				return
			}
		}
	}
}

func main() {
	odd := filter(nat, func(i int) bool { return i%2 == 1 })
	for s := range take(odd, 4) {
		fmt.Println(s)
	}
}
