// The key of a range over a map is fresh in each turn.
package main

import "fmt"

func main() {
	m := map[string]int{"x": 1, "y": 2, "z": 3}
	fs := map[string]func() int{}
	for k, v := range m {
		fs[k] = func() int { return v * len(k) }
	}
	fmt.Println(fs["x"](), fs["y"](), fs["z"]())
}
