// The assignment that panics leaves the ones before it done.
package main

import "fmt"

func try(name string, f func()) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Println(name+":", r)
		}
	}()
	f()
}

func main() {
	x := []int{1, 2, 3}
	i := 3
	try("second index", func() { x[1], x[i] = 40, 50 })
	fmt.Println(x)
	var p *struct{ n int }
	try("nil field", func() { x[2], p.n = 60, 70 })
	fmt.Println(x)
	var m map[string]int
	try("nil map", func() { x[0], m["a"] = 80, 90 })
	fmt.Println(x)
}
