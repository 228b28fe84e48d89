// A type switch finds the dynamic type and binds its value.
package main

import (
	"errors"
	"fmt"
)

func kind(v any) string {
	switch x := v.(type) {
	case nil:
		return "nil"
	case int:
		return fmt.Sprintf("int %d", x+1)
	case string:
		return "string " + x[:1]
	case []int:
		return fmt.Sprintf("slice of %d", len(x))
	case error:
		return "error " + x.Error()
	case func() int:
		return fmt.Sprintf("func %d", x())
	case map[string]int:
		return fmt.Sprintf("map %d", x["k"])
	case *int:
		return fmt.Sprintf("pointer %d", *x)
	case struct{ a int }:
		return fmt.Sprintf("struct %d", x.a)
	default:
		return fmt.Sprintf("other %T", x)
	}
}

func main() {
	n := 5
	for _, v := range []any{nil, 1, "abc", []int{1, 2}, errors.New("e"), func() int { return 3 }, map[string]int{"k": 4}, &n, struct{ a int }{6}, 2.5, int8(1)} {
		fmt.Println(kind(v))
	}
}
