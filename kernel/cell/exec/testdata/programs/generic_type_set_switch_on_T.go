// A type switch may have the type parameter and its composites as cases.
package main

import (
	"errors"
	"fmt"
)

func kind[T any](v any) string {
	switch x := v.(type) {
	case T:
		return fmt.Sprintf("T %v", x)
	case []T:
		return fmt.Sprintf("slice of %d", len(x))
	case map[string]T:
		return fmt.Sprintf("map %v", x)
	case func() T:
		return fmt.Sprintf("func %v", x())
	case *T:
		return fmt.Sprintf("pointer to %v", *x)
	}
	return "none"
}

func main() {
	n := 5
	fmt.Println(kind[int](1), kind[int]([]int{1, 2}), kind[int](map[string]int{"a": 1}), kind[int](func() int { return 9 }), kind[int](&n), kind[int]("s"))
	fmt.Println(kind[string]("s"), kind[error](errors.New("e")), kind[any](nil), kind[fmt.Stringer](3), kind[[]int]([]int{4}))
}
