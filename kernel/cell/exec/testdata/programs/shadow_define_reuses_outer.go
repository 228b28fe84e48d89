// A := in the same scope reuses variables, in an inner scope makes new ones.
package main

import (
	"errors"
	"fmt"
)

func main() {
	a, err := 1, errors.New("first")
	b, err := 2, error(nil)
	fmt.Println(a, b, err)
	if a, err := a+b, errors.New("inner"); err != nil {
		fmt.Println(a, err)
	}
	fmt.Println(a, err)
	{
		a, c := a*10, b
		a++
		fmt.Println(a, c)
	}
	p := &a
	a, d := 5, 6
	fmt.Println(*p, a, d)
}
