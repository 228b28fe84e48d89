// A switch without a tag takes the first true case.
package main

import "fmt"

func main() {
	grade := func(n int) string {
		switch {
		case n < 0, n > 100:
			return "invalid"
		case n >= 90:
			return "A"
		case n >= 50:
			return "B"
		}
		return "C"
	}
	for _, n := range []int{-1, 95, 90, 60, 10, 101} {
		fmt.Print(grade(n), " ")
	}
	fmt.Println()
	switch false {
	case 1 > 2:
		fmt.Println("false is the tag")
	case true:
		fmt.Println("no")
	}
}
