// Pointers to structs are shared between containers.
package main

import "fmt"

func main() {
	type acct struct {
		id  string
		bal float64
	}
	a, b := &acct{"a", 10}, &acct{"b", 20}
	byID := map[string]*acct{a.id: a, b.id: b}
	list := []*acct{b, a}
	byID["a"].bal -= 2.5
	list[0].bal += 2.5
	fmt.Println(a.bal, b.bal, *list[1], *byID["b"])
	for _, x := range list {
		x.bal *= 2
	}
	fmt.Println(*a, *b)
}
