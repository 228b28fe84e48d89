// A panic with nil is a runtime error of its own since Go 1.21.
package main

import "fmt"

func main() {
	defer func() {
		r := recover()
		err, ok := r.(error)
		fmt.Println(r != nil, ok, err)
	}()
	panic(nil)
}
