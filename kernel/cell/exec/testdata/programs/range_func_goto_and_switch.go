// Break in a switch and goto out of a body work inside ranged functions.
package main

import "fmt"

func main() {
	seq := func(yield func(int) bool) {
		for i := 0; i < 10 && yield(i); i++ {
		}
	}
	for i := range seq {
		switch {
		case i == 1:
			continue
		case i == 3:
			break
		case i > 4:
			goto out
		default:
			fmt.Println("i", i)
		}
	}
	fmt.Println("not reached")
out:
	fmt.Println("out")
}
