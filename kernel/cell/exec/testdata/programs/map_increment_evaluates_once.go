// A compound assignment to a map element evaluates map and key once.
package main

import "fmt"

func main() {
	n := 0
	key := func() string { n++; return "k" }
	m := map[string]int{}
	get := func() map[string]int { n += 10; return m }
	get()[key()]++
	get()[key()] += 5
	m[key()] <<= 2
	fmt.Println(m, n)
}
