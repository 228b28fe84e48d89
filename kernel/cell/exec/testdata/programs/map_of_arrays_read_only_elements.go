// Elements of an array in a map are read by index.
package main

import "fmt"

func main() {
	m := map[string][2]int{"a": {1, 2}}
	a := m["a"]
	a[0] = 10
	fmt.Println(m["a"][0], a, m["b"], m["b"][1])
	m["a"] = a
	for k, v := range m {
		v[1] = 50
		fmt.Println(k, v, m[k])
	}
	fmt.Println(len(m["a"]))
}
