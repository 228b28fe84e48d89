// Results are dropped with the blank identifier.
package main

import "fmt"

func main() {
	f := func() (int, error, []string) { return 3, nil, []string{"x"} }
	a, _, _ := f()
	_, err, s := f()
	_, _, _ = f()
	f()
	var b int
	b, err, _ = f()
	fmt.Println(a, err, s, b)
}
