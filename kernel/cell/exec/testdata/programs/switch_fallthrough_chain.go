// Fallthrough runs the next clause without testing it.
package main

import "fmt"

func main() {
	f := func(n int) (s string) {
		switch n {
		case 1:
			s += "one "
			fallthrough
		case 2:
			s += "two "
			fallthrough
		default:
			s += "default "
			fallthrough
		case 3:
			s += "three "
		case 4:
			s += "four "
		}
		return
	}
	for i := range 6 {
		fmt.Println(i, f(i))
	}
}
