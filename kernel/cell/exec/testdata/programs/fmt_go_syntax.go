// The verb #v prints Go syntax for plain values.
package main

import "fmt"

func main() {
	fmt.Printf("%#v %#v %#v %#v\n", 1, "s\n", 2.0, []int{1, 2})
	fmt.Printf("%#v %#v %#v\n", map[string]int{"b": 2, "a": 1}, []string{"x"}, [2]bool{true})
	fmt.Printf("%#v %#v %#v %#v\n", byte(7), 'x', int64(5), 1e6)
	fmt.Printf("%#v %#v\n", struct {
		A int
		B string
	}{1, "b"}, []any{1, "a", nil})
	fmt.Printf("%#x %#o %#b %#q\n", 255, 8, 5, "q")
}
