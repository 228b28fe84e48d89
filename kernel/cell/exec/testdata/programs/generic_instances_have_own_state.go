// Each instance has its own method set and type identity.
package main

import "fmt"

type box[T any] struct{ v T }

func (b box[T]) String() string { return fmt.Sprintf("box(%v)", b.v) }

func main() {
	var a, b any = box[int]{1}, box[int64]{1}
	_, ok := a.(box[int])
	_, ok2 := b.(box[int])
	fmt.Println(a == b, ok, ok2, a, b, box[box[string]]{box[string]{"in"}})
	m := map[any]int{box[int]{1}: 1, box[string]{"1"}: 2}
	fmt.Println(m[a], m[b], m[box[string]{"1"}])
}
