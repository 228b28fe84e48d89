// Break in a switch leaves the switch, not the loop.
package main

import "fmt"

func main() {
	for i := range 5 {
		switch i {
		case 1:
			break
		case 2:
			continue
		case 3:
			if i > 2 {
				break
			}
			fmt.Println("not reached")
		default:
			fmt.Println("default", i)
		}
		fmt.Println("after", i)
	}
}
