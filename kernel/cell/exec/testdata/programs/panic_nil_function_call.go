// Calling a nil function is a nil dereference.
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
	var f func(int) int
	try("variable", func() { fmt.Println(f(1)) })
	m := map[string]func(){}
	try("missing in map", func() { m["x"]() })
	type s struct{ do func() }
	try("field", func() { s{}.do() })
}
