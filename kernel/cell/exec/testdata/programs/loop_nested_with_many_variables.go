// Many variables live through nested loops with exits.
package main

import (
	"fmt"
	"strconv"
)

func main() {
	a, b, c, d := 0, 1, 2.0, "s"
	for i := range 6 {
		for j := i; ; j += 2 {
			switch {
			case j > 8:
				goto next
			case j%3 == 0:
				a, b = b, a+j
				continue
			case j == 7:
				c /= 2
				break
			default:
				c += float64(b)
			}
			if d = d[len(d)-1:] + strconv.Itoa(j); j%4 == 3 {
				break
			}
		}
		a++
	next:
		b--
	}
	fmt.Println(a, b, c, d)
}
