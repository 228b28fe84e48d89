// Each deferred function may replace the panic with its own.
package main

import "fmt"

func f() {
	defer func() { fmt.Println("final", recover()) }()
	for i := range 3 {
		defer func() {
			r := recover()
			fmt.Println("seen", r)
			panic(fmt.Sprintf("%v+%d", r, i))
		}()
	}
	panic("start")
}

func main() {
	f()
}
