// Function, receiver and arguments are evaluated before the call.
package main

import (
	"fmt"
	"strings"
)

type t string

func (s t) m(a, b string) t { return s + t(a+b) }

func main() {
	var log []string
	n := func(s string) string { log = append(log, s); return s }
	mk := func(s string) t { n(s); return t(s) }
	fmt.Println(mk("r").m(n("a"), n("b")).m(n("c"), n("d")))
	fn := func() func(string) string { n("fn"); return strings.ToUpper }
	fmt.Println(fn()(n("arg")))
	fmt.Println(log)
}
