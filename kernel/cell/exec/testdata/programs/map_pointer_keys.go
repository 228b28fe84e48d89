// Pointer keys are told apart by identity.
package main

import "fmt"

func main() {
	type n struct{ v int }
	a, b := &n{1}, &n{1}
	m := map[*n]string{a: "a", b: "b"}
	a.v = 100
	fmt.Println(m[a], m[b], len(m), m[&n{1}] == "")
	c := a
	delete(m, c)
	fmt.Println(len(m), m[b])
}
