// A panic while the result is computed leaves the named result as it was.
package main

import "fmt"

func bad() int { panic("bad") }
func f() (n int, s string) {
	defer func() { recover(); s += "!" }()
	n, s = 1, "set"
	return bad(), "never"
}

func main() {
	fmt.Println(f())
}
