// Errors made by Errorf wrap what the verb w is given.
package main

import (
	"errors"
	"fmt"
)

func main() {
	base := errors.New("base")
	e1 := fmt.Errorf("one: %w", base)
	e2 := fmt.Errorf("two %d: %w", 2, e1)
	fmt.Println(e2, errors.Unwrap(e2) == e1, errors.Is(e2, base), errors.Unwrap(base))
	plain := fmt.Errorf("plain: %v", base)
	fmt.Println(plain, errors.Is(plain, base), errors.Unwrap(plain) == nil)
	two := fmt.Errorf("%w and %w", base, e1)
	fmt.Println(two, errors.Is(two, e1), errors.Unwrap(two))
}
