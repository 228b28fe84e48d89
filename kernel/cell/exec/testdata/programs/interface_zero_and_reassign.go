// Interface variables change their dynamic type freely.
package main

import (
	"errors"
	"fmt"
)

func main() {
	var v any
	fmt.Println(v == nil, v)
	for _, x := range []any{1, "s", nil, []int{1}, 2.5} {
		v = x
		_, isInt := v.(int)
		fmt.Printf("%v %T %t %t\n", v, v, v == nil, isInt)
	}
	var e error
	v = e
	fmt.Println(v == nil)
	e = errors.New("x")
	v = e
	fmt.Println(v != nil, v.(error) == e)
}
