// Comparing interfaces that hold uncomparable values panics.
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
	var a, b any = []int{1}, []int{1}
	try("slices", func() { fmt.Println(a == b) })
	a, b = map[string]int{}, map[string]int{}
	try("maps", func() { fmt.Println(a == b) })
	a, b = func() {}, func() {}
	try("functions", func() { fmt.Println(a != b) })
	a, b = []int{1}, "other"
	fmt.Println(a == b, a != b, a == nil)
	type t struct{ s []int }
	a, b = [1]any{[]int{}}, [1]any{[]int{}}
	try("array of interfaces", func() { fmt.Println(a == b) })
}
