// Index and pointer operands of all left sides are evaluated before the first store.
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
	log := ""
	f := func(s string, n int) int { log += s; return n }
	x := []int{1, 2, 3}
	try("two stores", func() { x[f("a", 0)], x[f("b", 9)] = f("c", 10), f("d", 20) })
	fmt.Println(log, x)
	log = ""
	i := 0
	i, x[i], x[i+1] = 2, 70, 80
	fmt.Println(i, x)
}
