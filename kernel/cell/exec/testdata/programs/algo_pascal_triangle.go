// Pascal's triangle row by row, each from the one before.
package main

import "fmt"

func main() {
	row := []int{1}
	for range 7 {
		fmt.Printf("%*s%v\n", 8-len(row), "", row)
		next := make([]int, len(row)+1)
		for i, x := range row {
			next[i] += x
			next[i+1] += x
		}
		row = next
	}
}
