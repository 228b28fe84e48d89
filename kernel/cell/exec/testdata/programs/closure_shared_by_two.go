// Two closures that captured one variable see each other's writes.
package main

import "fmt"

func main() {
	n := 0
	inc := func() int { n++; return n }
	get := func() int { return n }
	inc()
	inc()
	fmt.Println(get(), n)
	n = 10
	fmt.Println(inc(), get())
}
