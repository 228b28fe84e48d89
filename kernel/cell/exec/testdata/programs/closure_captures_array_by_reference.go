// A captured array is the variable, not a copy.
package main

import "fmt"

func main() {
	a := [3]int{1, 2, 3}
	set := func(i, v int) { a[i] = v }
	b := a
	set(0, 9)
	fmt.Println(a, b)
	get := func() [3]int { return a }
	c := get()
	set(1, 8)
	fmt.Println(a, c)
}
