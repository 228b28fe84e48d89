// An error type may decide itself what it is.
package main

import (
	"errors"
	"fmt"
	"strconv"
)

type code struct{ n int }

func (c code) Error() string        { return "code " + strconv.Itoa(c.n) }
func (c code) Is(target error) bool { t, ok := target.(code); return ok && (t.n == 0 || t.n == c.n) }

type hidden struct{}

func (hidden) Error() string { return "hidden" }
func (hidden) As(t any) bool {
	if p, ok := t.(*code); ok {
		p.n = 77
		return true
	}
	return false
}

func main() {
	err := fmt.Errorf("x: %w", code{5})
	fmt.Println(errors.Is(err, code{5}), errors.Is(err, code{6}), errors.Is(err, code{}))
	var c code
	ok := errors.As(err, &c)
	fmt.Println(ok, c)
	ok = errors.As(hidden{}, &c)
	fmt.Println(ok, c.n)
}
