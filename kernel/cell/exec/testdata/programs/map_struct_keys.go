// Structs are map keys by the values of their fields.
package main

import "fmt"

func main() {
	type key struct {
		x, y int
		s    string
	}
	m := map[key]int{{1, 2, "a"}: 1}
	k := key{1, 2, "a"}
	m[k]++
	k.x = 5
	m[k] = 7
	fmt.Println(m, m[key{1, 2, "a"}], m[key{y: 2, x: 5, s: "a"}], m[key{}])
	an := map[struct{ a, b int }]bool{{1, 2}: true}
	fmt.Println(an[struct{ a, b int }{1, 2}], an)
}
