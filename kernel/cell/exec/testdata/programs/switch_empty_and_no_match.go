// Empty switches and clauses do nothing.
package main

import "fmt"

func main() {
	n := 0
	switch n++; {
	}
	switch n {
	}
	switch n {
	case 1:
	case 2:
		n = 50
	default:
		n = 60
	}
	switch n {
	case 2, 3:
		n = 70
	}
	fmt.Println(n)
	switch func() int { n++; return n }() {
	}
	fmt.Println(n)
}
