// Wrapped errors are found in the chain by value and by type.
package main

import (
	"errors"
	"fmt"
)

type opErr struct {
	op  string
	err error
}

func (e *opErr) Error() string { return e.op + ": " + e.err.Error() }
func (e *opErr) Unwrap() error { return e.err }

func main() {
	var notFound = errors.New("not found")
	err := fmt.Errorf("load: %w", &opErr{"open", fmt.Errorf("disk: %w", notFound)})
	fmt.Println(err, errors.Is(err, notFound), errors.Is(err, errors.New("not found")))
	var oe *opErr
	fmt.Println(errors.As(err, &oe))
	fmt.Println(oe.op, errors.Unwrap(oe.err) == notFound)
	oe = nil
	fmt.Println(errors.As(notFound, &oe))
	fmt.Println(oe == nil, errors.Is(nil, notFound), errors.Unwrap(nil))
}
