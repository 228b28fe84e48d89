// A slice expression beyond the capacity panics with both figures.
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
	s := make([]int, 3, 5)
	n := 6
	try("capacity", func() { fmt.Println(s[:n]) })
	try("capacity low", func() { fmt.Println(s[1:n]) })
	a := [3]int{}
	try("array", func() { fmt.Println(a[:n]) })
	t := "hello"
	try("string", func() { fmt.Println(t[:n]) })
	n = 5
	fmt.Println(len(s[:n]), t[:n])
}
