// The value before the update is still the one that was read.
package main

import "fmt"

func main() {
	prev, cur := 0, 0
	for i := 1; i < 6; i++ {
		prev = cur
		cur = i * i
		fmt.Print(cur-prev, " ")
	}
	fmt.Println(prev, cur)
	i := 0
	j := i
	for i < 3 {
		j = i
		i++
	}
	fmt.Println(i, j)
	last := -1
	for k := range 4 {
		old := last
		last = k
		if old == 2 {
			fmt.Println("old", old, "last", last)
		}
	}
}
