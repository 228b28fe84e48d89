// Maps print in the order of their keys.
package main

import (
	"fmt"
	"math"
)

func main() {
	fmt.Println(map[int]string{3: "c", 1: "a", 2: "b"}, map[string]bool{"z": true, "a": false})
	fmt.Println(map[float64]int{2.5: 1, -1: 2, math.Inf(-1): 3}, map[bool]int{true: 1, false: 0})
	fmt.Println(map[[2]int]int{{2, 1}: 1, {1, 9}: 2}, map[struct{ a, b string }]int{{"b", "a"}: 1, {"a", "z"}: 2})
	var m map[string]int
	fmt.Println(m, len(m), map[string]map[string]int{"o": {"b": 2, "a": 1}})
	fmt.Printf("%v %+v %d\n", map[rune]int{'b': 1, 'a': 2}, map[string]any{"k": nil}, map[string]int{"n": 1})
}
