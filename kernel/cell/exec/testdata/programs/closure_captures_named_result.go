// A closure may change a named result until the function has returned.
package main

import "fmt"

func f() (n int, bump func()) {
	bump = func() { n++ }
	bump()
	n += 10
	bump()
	return
}

func main() {
	n, bump := f()
	bump()
	fmt.Println(n)
}
