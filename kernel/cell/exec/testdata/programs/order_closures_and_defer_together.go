// Argument evaluation, the call and deferred calls come in their defined order.
package main

import "fmt"

func main() {
	log := []string{}
	n := func(s string) int { log = append(log, s); return len(log) }
	f := func(int) (r int) {
		defer n("deferred")
		defer func(int) { n("closure") }(n("argument of deferred"))
		return n("body")
	}
	r := f(n("argument"))
	fmt.Println(r, log)
}
