// A value method called through a pointer in an interface sees the current value.
package main

import "fmt"

type t struct{ n int }

func (x t) get() int { return x.n }

type getter interface{ get() int }

func try(name string, f func()) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Println(name+":", r)
		}
	}()
	f()
}

func main() {
	v := t{1}
	var byVal, byPtr getter = v, &v
	v.n = 2
	fmt.Println(byVal.get(), byPtr.get())
	f, g := byVal.get, byPtr.get
	v.n = 3
	fmt.Println(f(), g(), byPtr.get())
	byPtr = (*t)(nil)
	try("nil through value method", func() { fmt.Println(byPtr.get()) })
}
