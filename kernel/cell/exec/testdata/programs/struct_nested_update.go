// Deeply nested fields of arrays, maps and pointers are updated in place.
package main

import "fmt"

func main() {
	type leaf struct{ v [2]map[string]int }
	type tree struct {
		kids [2]*leaf
		by   map[int]*leaf
		list []leaf
	}
	l := &leaf{}
	l.v[1] = map[string]int{"a": 1}
	t := tree{kids: [2]*leaf{l}, by: map[int]*leaf{7: l}, list: []leaf{*l}}
	t.kids[0].v[1]["a"] += 4
	t.by[7].v[0] = map[string]int{"new": 1}
	t.list[0].v[1]["b"]++
	fmt.Println(l.v, t.list[0].v, t.kids[1] == nil, len(t.by[7].v[0]))
}
