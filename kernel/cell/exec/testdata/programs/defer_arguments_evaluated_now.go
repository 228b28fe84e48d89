// The arguments and the receiver of a deferred call are fixed at the defer statement.
package main

import "fmt"

type c struct{ n int }

func (v c) show(s string)   { fmt.Println(s, v.n) }
func (v *c) showp(s string) { fmt.Println(s, v.n) }

func main() {
	x := c{1}
	s := "then"
	defer x.show(s)
	defer x.showp(s)
	x.n, s = 2, "now"
	x.show(s)
}
