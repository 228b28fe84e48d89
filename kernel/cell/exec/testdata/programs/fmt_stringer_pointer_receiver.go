// A String method on the pointer is used for pointers only.
package main

import (
	"fmt"
	"strconv"
)

type t struct{ n int }

func (p *t) String() string { return "t" + strconv.Itoa(p.n) }

func main() {
	v := t{1}
	fmt.Println(v, &v, []t{{2}}, []*t{{3}}[0], map[string]t{"a": {4}})
	fmt.Printf("%v %v %s %d\n", v, &v, &v, v)
	var s fmt.Stringer = &v
	v.n = 9
	fmt.Println(s, s.String())
}
