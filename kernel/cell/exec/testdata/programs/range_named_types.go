// Named slice, map, string, array and function types can be ranged over.
package main

import "fmt"

func main() {
	type ids []int
	type reg map[string]ids
	type word string
	type pairs func(func(int, word) bool)
	type grid [2][2]rune
	r := reg{"a": {1, 2}}
	n := 0
	for k, v := range r {
		for _, x := range v {
			n += x * len(k)
		}
	}
	for i, c := range word("hé") {
		n += i + int(c)
	}
	var p pairs = func(y func(int, word) bool) { _ = y(1, "x") && y(2, "y") }
	for i, w := range p {
		fmt.Print(i, w, " ")
	}
	for _, row := range (grid{{'a', 'b'}, {'c'}}) {
		for _, c := range row {
			n += int(c)
		}
	}
	for i := range word("abc") {
		n += i
	}
	fmt.Println(n)
}
