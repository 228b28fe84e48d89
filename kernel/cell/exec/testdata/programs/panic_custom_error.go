// A panic with an error value can be examined with errors.As.
package main

import (
	"errors"
	"fmt"
)

type limitError struct{ limit, got int }

func (e *limitError) Error() string { return fmt.Sprintf("limit %d, got %d", e.limit, e.got) }
func check(n int) int {
	if n > 5 {
		panic(&limitError{5, n})
	}
	return n
}
func guarded(n int) (r int, err error) {
	defer func() {
		switch x := recover().(type) {
		case nil:
		case error:
			err = fmt.Errorf("guarded: %w", x)
		default:
			panic(x)
		}
	}()
	return check(n), nil
}

func main() {
	fmt.Println(guarded(3))
	_, err := guarded(9)
	var le *limitError
	ok := errors.As(err, &le)
	fmt.Println(err, ok, le.got-le.limit)
}
