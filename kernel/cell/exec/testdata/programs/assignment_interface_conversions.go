// Assigning to an interface variable converts at every place.
package main

import (
	"fmt"
	"strconv"
)

type s struct{ n int }

func (x s) String() string   { return "s" + strconv.Itoa(x.n) }
func ret(n int) fmt.Stringer { return s{n} }

func main() {
	m := map[string]fmt.Stringer{"a": s{1}}
	l := []fmt.Stringer{s{2}, ret(3)}
	f := struct{ v fmt.Stringer }{s{4}}
	var a any = l[0]
	l[0] = m["a"]
	x, ok := a.(s)
	fmt.Println(m, l, f, a, x.n, ok, [2]any{s{5}, nil})
}
