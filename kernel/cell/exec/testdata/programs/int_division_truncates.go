// Quotient and remainder truncate towards zero.
package main

import "fmt"

func main() {
	for _, p := range [][2]int{{7, 3}, {-7, 3}, {7, -3}, {-7, -3}, {6, 3}, {1, 5}} {
		a, b := p[0], p[1]
		fmt.Println(a, b, a/b, a%b, a/b*b+a%b == a)
	}
}
