// Built-in functions can be deferred through closures and directly.
package main

import "fmt"

func f(m map[string]int) {
	defer delete(m, "a")
	defer clear(m)
	m["a"] = 1
	fmt.Println(len(m))
}
func g(dst, src []int) { defer copy(dst, src); src[0] = 5 }

func main() {
	m := map[string]int{}
	f(m)
	fmt.Println(len(m))
	d, s := make([]int, 2), []int{1, 2}
	g(d, s)
	fmt.Println(d)
}
