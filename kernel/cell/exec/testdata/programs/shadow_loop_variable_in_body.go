// A loop variable may be shadowed in the body without touching the count.
package main

import "fmt"

func main() {
	for i := 0; i < 3; i++ {
		i := i * 10
		i++
		fmt.Print(i, " ")
	}
	x := []int{7, 8}
	for x, y := range x {
		fmt.Print(x, y, " ")
	}
	for _, x := range x {
		x := float64(x) / 2
		fmt.Print(x, " ")
	}
	fmt.Println(x)
}
