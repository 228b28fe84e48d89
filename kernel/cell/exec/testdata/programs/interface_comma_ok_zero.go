// A failed assertion with ok gives the zero value of the type.
package main

import "fmt"

func main() {
	var v any = "s"
	n, ok := v.(int)
	fmt.Println(n, ok)
	f, ok := v.([]int)
	fmt.Println(f == nil, ok)
	st, ok := v.(struct{ x, y int })
	fmt.Println(st, ok)
	e, ok := v.(error)
	fmt.Println(e, ok)
	if s, ok := v.(string); ok {
		fmt.Println(s)
	} else {
		fmt.Println("no", s)
	}
	v = nil
	_, ok = v.(any)
	fmt.Println(ok)
}
