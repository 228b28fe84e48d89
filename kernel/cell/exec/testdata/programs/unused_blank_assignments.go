// Blank assignments evaluate their operand.
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
	n := 0
	f := func() int { n++; return n }
	_ = f()
	_, x := f(), f()
	var _ = f()
	var _, y = f(), 7
	fmt.Println(n, x, y)
	try("still panics", func() { var m []int; _ = m[n] })
}
