// The second recover of one panic gives nil.
package main

import "fmt"

func f() {
	defer func() { fmt.Println("later", recover()) }()
	defer func() { fmt.Println(recover(), recover()) }()
	panic("once")
}

func main() {
	f()
}
