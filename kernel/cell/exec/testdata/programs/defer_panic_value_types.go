// Recover gives back the value of any type that was given to panic.
package main

import (
	"errors"
	"fmt"
)

type e struct{ code int }

func (x e) Error() string { return fmt.Sprintf("code %d", x.code) }
func catch(v any) (r any) {
	defer func() { r = recover() }()
	panic(v)
}

func main() {
	for _, v := range []any{1, "s", 2.5, e{3}, &e{4}, []int{1}, errors.New("plain"), 'r'} {
		r := catch(v)
		_, isErr := r.(error)
		fmt.Printf("%T %v %t\n", r, r, isErr)
	}
}
