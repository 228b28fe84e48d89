// Promoted fields are reached through elements of containers.
package main

import "fmt"

type base struct{ tags []string }

func (b *base) tag(s string) { b.tags = append(b.tags, s) }

type item struct {
	base
	n int
}

func main() {
	m := map[string]*item{"a": {n: 1}}
	s := []item{{n: 2}, {base: base{[]string{"x"}}}}
	m["a"].tag("m")
	s[0].tag("s0")
	s[1].base.tag("s1")
	fmt.Println(m["a"].tags, s)
}
