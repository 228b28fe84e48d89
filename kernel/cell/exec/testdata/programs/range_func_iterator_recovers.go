// A loop body's panic that the iterator swallows is reported at the loop.
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
	swallow := func(yield func(int) bool) {
		defer func() { fmt.Println("iterator recovered:", recover()) }()
		yield(1)
	}
	try("loop", func() {
		for range swallow {
			panic("from body")
		}
		fmt.Println("not reached")
	})
}
