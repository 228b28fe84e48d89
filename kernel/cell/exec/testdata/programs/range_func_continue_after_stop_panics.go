// An iterator that goes on after the loop ended is stopped by a runtime error.
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
	rude := func(yield func(int) bool) {
		yield(1)
		yield(2)
		fmt.Println("not reached")
	}
	try("break", func() {
		for i := range rude {
			fmt.Println(i)
			break
		}
	})
	polite := func(yield func(int) bool) {
		if yield(1) {
			yield(2)
		}
	}
	for i := range polite {
		fmt.Println(i)
		break
	}
}
