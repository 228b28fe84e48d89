// A recursive iterator walks a tree and stops early.
package main

import "fmt"

type tree struct {
	l *tree
	v int
	r *tree
}

func (t *tree) all(yield func(int) bool) bool {
	if t == nil {
		return true
	}
	return t.l.all(yield) && yield(t.v) && t.r.all(yield)
}
func (t *tree) values() func(func(int) bool) {
	return func(yield func(int) bool) { t.all(yield) }
}

func main() {
	t := &tree{&tree{nil, 1, &tree{v: 2}}, 3, &tree{&tree{v: 4}, 5, nil}}
	for v := range t.values() {
		fmt.Print(v, " ")
	}
	for v := range t.values() {
		if v == 3 {
			break
		}
		fmt.Print(v, ";")
	}
	fmt.Println()
}
