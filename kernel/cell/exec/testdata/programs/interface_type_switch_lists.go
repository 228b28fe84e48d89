// A case with several types leaves the variable an interface.
package main

import (
	"errors"
	"fmt"
)

func f(v any) string {
	switch x := v.(type) {
	case int, int64, uint8:
		return fmt.Sprintf("integer %v %T", x, x)
	case float32, float64:
		return fmt.Sprintf("float %v", x)
	case nil, error:
		return fmt.Sprintf("nil or error %v", x)
	case fmt.Stringer, bool:
		return fmt.Sprintf("text %v", x)
	}
	return "none"
}

func main() {
	for _, v := range []any{1, int64(2), byte(3), 1.5, float32(2.5), nil, errors.New("x"), true, "s", rune(4)} {
		fmt.Println(f(v))
	}
}
