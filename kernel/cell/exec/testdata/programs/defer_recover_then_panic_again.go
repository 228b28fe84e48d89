// A deferred function may recover, look, and panic anew.
package main

import "fmt"

func inner() {
	defer func() {
		r := recover()
		panic(fmt.Sprintf("wrapped %v", r))
	}()
	panic("core")
}

func main() {
	defer func() { fmt.Println(recover()) }()
	inner()
}
