// Float keys compare by value, interface keys by type and value.
package main

import "fmt"

func main() {
	m := map[float64]string{0.5: "half", 1: "one"}
	x := 0.1 + 0.2
	m[x] = "sum"
	_, ok := m[0.3]
	fmt.Println(m[2.0/2], m[1.0/2], ok, x)
	i := map[any]int{1: 1, 1.0: 2, "1": 3, [1]int{1}: 4}
	var e error
	i[e]++
	fmt.Println(i[1], i[1.0], i["1"], i[[1]int{1}], i[nil], len(i))
	z := 0.0
	m[-z] = "zero"
	fmt.Println(m[z])
}
