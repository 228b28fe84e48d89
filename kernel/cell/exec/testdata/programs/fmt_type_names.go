// The verb T prints the types of values.
package main

import (
	"errors"
	"fmt"
)

func main() {
	type mine struct{}
	type list []mine
	vs := []any{1, "s", 1.5, true, 'x', byte(1), nil, []int{}, [3]string{}, map[string][]bool{}, &[]int{}, func(int, ...string) (bool, error) { return false, nil }, struct{ A int }{}, errors.New("e"), []any{}, []error{}}
	for _, v := range vs {
		fmt.Printf("%T\n", v)
	}
	fmt.Printf("%T %T %T %T\n", mine{}, &mine{}, list{}, map[mine]list{})
}
