// Nested literals of maps leave out their element types.
package main

import "fmt"

func main() {
	m := map[string]map[string][]int{"a": {"x": {1, 2}, "y": nil}, "b": {}}
	p := map[[2]int]*struct{ s string }{{0, 1}: {"p"}}
	q := map[string][]map[int]string{"l": {{1: "one"}, {2: "two"}}}
	fmt.Println(m, p[[2]int{0, 1}].s, q, q["l"][1][2])
}
