// Writing to a nil map panics while reading, deleting and ranging do not.
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
	var m map[string]int
	fmt.Println(m["x"], len(m))
	delete(m, "x")
	for range m {
		fmt.Println("never")
	}
	v, ok := m["y"]
	fmt.Println(v, ok)
	try("assign", func() { m["x"] = 1 })
	try("increment", func() { m["x"]++ })
}
