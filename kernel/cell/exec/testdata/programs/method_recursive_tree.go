// Methods on a nil pointer end the recursion over a tree.
package main

import "fmt"

type tree struct {
	left, right *tree
	v           int
}

func (t *tree) insert(v int) *tree {
	if t == nil {
		return &tree{v: v}
	}
	if v < t.v {
		t.left = t.left.insert(v)
	} else {
		t.right = t.right.insert(v)
	}
	return t
}
func (t *tree) walk(f func(int)) {
	if t != nil {
		t.left.walk(f)
		f(t.v)
		t.right.walk(f)
	}
}

func main() {
	var t *tree
	for _, v := range []int{5, 2, 8, 1, 9, 3, 7} {
		t = t.insert(v)
	}
	t.walk(func(v int) { fmt.Printf("%d ", v) })
	fmt.Println()
}
