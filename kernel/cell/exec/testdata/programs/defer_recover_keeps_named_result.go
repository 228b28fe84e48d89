// A named result set before the panic is what the recovered function returns.
package main

import "fmt"

func f() (n int) {
	defer func() { recover() }()
	n = 7
	panic("x")
}

func main() {
	fmt.Println(f())
}
