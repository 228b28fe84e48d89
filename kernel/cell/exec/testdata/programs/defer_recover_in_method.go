// A deferred method value may recover.
package main

import "fmt"

type guard struct{ name string }

func (g guard) catch() { fmt.Println(g.name, recover()) }
func f() {
	g := guard{"first"}
	defer g.catch()
	g.name = "second"
	panic("boom")
}

func main() {
	f()
}
