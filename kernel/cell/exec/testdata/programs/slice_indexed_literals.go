// Composite literals may give indexes.
package main

import "fmt"

func main() {
	s := []string{2: "c", "d", 0: "a"}
	a := [...]int{5: 1, 2, 1: 7}
	fmt.Printf("%q %v %d %d\n", s, a, len(s), len(a))
	const k = 3
	b := [5]rune{k: 'x', 'y'}
	v := []bool{'c' - 'a': true}
	fmt.Println(b, v, len([...]string{9: ""}))
}
