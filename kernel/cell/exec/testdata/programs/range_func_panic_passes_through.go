// A panic in the body passes through the iterator and its deferred calls.
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
	seq := func(yield func(int) bool) {
		defer func() { fmt.Println("iterator leaves") }()
		for i := 3; ; i-- {
			if !yield(i) {
				return
			}
		}
	}
	try("body", func() {
		for i := range seq {
			fmt.Println(12 / i)
		}
	})
	try("iterator", func() {
		bad := func(yield func(int) bool) { yield(1); panic("iterator's own") }
		for i := range bad {
			fmt.Println("got", i)
		}
	})
}
