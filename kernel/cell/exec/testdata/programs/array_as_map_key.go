// Arrays are map keys by value.
package main

import "fmt"

func main() {
	m := map[[2]int]string{{1, 2}: "a", {2, 1}: "b"}
	k := [2]int{1, 2}
	m[k] += "!"
	k[0] = 2
	k[1] = 1
	fmt.Println(m[k], m[[2]int{1, 2}], len(m), m)
	seen := map[[3]byte]int{}
	for _, s := range []string{"abc", "abd", "abc"} {
		seen[[3]byte([]byte(s))]++
	}
	fmt.Println(len(seen), seen[[3]byte{'a', 'b', 'c'}])
}
