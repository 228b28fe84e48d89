// An inner function's recover leaves the outer panic alone.
package main

import "fmt"

func safe(f func()) (r any) {
	defer func() { r = recover() }()
	f()
	return "fine"
}
func f() {
	defer func() { fmt.Println("outer", recover()) }()
	defer func() { fmt.Println("inner", safe(func() { panic("two") })) }()
	panic("one")
}

func main() {
	f()
	fmt.Println(safe(func() {}))
}
