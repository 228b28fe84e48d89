// The two-valued lookup works in all places.
package main

import "fmt"

func main() {
	m := map[string]*int{"nil": nil}
	p, ok := m["nil"]
	fmt.Println(p == nil, ok)
	var q *int
	var found bool
	q, found = m["none"]
	fmt.Println(q == nil, found)
	_, found = m["nil"]
	fmt.Println(found)
	type flag bool
	var f flag
	_, f = m["nil"]
	fmt.Println(f)
	r := []any{nil, nil}
	r[0], ok = m["x"]
	fmt.Println(ok)
}
