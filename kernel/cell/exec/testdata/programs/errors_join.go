// Joined errors hold all their parts.
package main

import (
	"errors"
	"fmt"
)

func main() {
	a, b := errors.New("a"), errors.New("b")
	j := errors.Join(a, nil, fmt.Errorf("wrap: %w", b))
	fmt.Println(j)
	fmt.Println(errors.Is(j, a), errors.Is(j, b), errors.Join(nil, nil) == nil, errors.Unwrap(j))
	u, ok := j.(interface{ Unwrap() []error })
	fmt.Println(ok, len(u.Unwrap()))
	fmt.Printf("%q\n", errors.Join(j, a).Error())
}
