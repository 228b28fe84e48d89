// Labels choose the loop that break and continue act on.
package main

import "fmt"

func main() {
outer:
	for i := 0; i < 4; i++ {
		for j := 0; ; j++ {
			switch {
			case j == 2:
				continue outer
			case i == 3:
				break outer
			}
			fmt.Println(i, j)
		}
	}
}
