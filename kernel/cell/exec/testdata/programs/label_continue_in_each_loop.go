// A labelled continue works in each kind of loop.
package main

import "fmt"

func main() {
	count := 0
rows:
	for _, row := range [][]int{{1, 2}, {-1, 5}, {3, -4, 9}} {
		for range row {
			count++
		}
		for _, x := range row {
			if x < 0 {
				continue rows
			}
		}
		fmt.Println(row, count)
	}
	n := 0
again:
	for n < 10 {
		n++
		for {
			if n%3 == 0 {
				continue again
			}
			break
		}
		fmt.Print(n, " ")
	}
	fmt.Println()
}
