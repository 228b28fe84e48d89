// A method value serves as an iterator.
package main

import "fmt"

type ring struct {
	xs    []string
	start int
}

func (r ring) all(yield func(int, string) bool) {
	for i := range r.xs {
		j := (r.start + i) % len(r.xs)
		if !yield(j, r.xs[j]) {
			return
		}
	}
}

func main() {
	r := ring{[]string{"a", "b", "c"}, 2}
	for i, s := range r.all {
		fmt.Print(i, s, " ")
	}
	f := r.all
	r.start = 1
	for i, s := range f {
		fmt.Print(i, s, " ")
	}
	fmt.Println()
}
