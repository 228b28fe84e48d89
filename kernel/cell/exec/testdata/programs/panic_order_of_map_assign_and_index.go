// The right side is evaluated before a nil map write panics.
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
	f := func() int { fmt.Println("right side"); return 1 }
	try("map", func() { m["a"] = f() })
	var p *struct{ x int }
	try("pointer", func() { p.x = f() })
	s := []int{}
	i := 5
	try("index", func() { s[i] = f() })
}
