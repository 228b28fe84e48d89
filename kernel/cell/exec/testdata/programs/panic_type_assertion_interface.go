// A failed assertion to an interface names the missing method.
package main

import (
	"errors"
	"fmt"
)

func try(name string, f func()) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Println(name+":", r)
		}
	}()
	f()
}

func main() {
	v := any(3)
	try("error", func() { fmt.Println(v.(error)) })
	try("Stringer", func() { fmt.Println(v.(fmt.Stringer)) })
	v = nil
	try("nil", func() { fmt.Println(v.(error)) })
	var e error
	try("nil error", func() { fmt.Println(e.(fmt.Stringer)) })
	e = errors.New("x")
	try("error as Stringer", func() { fmt.Println(e.(fmt.Stringer)) })
	try("error literal type", func() { fmt.Println(v.(interface{ Unwrap() error })) })
}
