// Rows of a slice of slices are independent unless shared.
package main

import "fmt"

func main() {
	grid := make([][]int, 3)
	for i := range grid {
		grid[i] = make([]int, 2)
	}
	grid[1][1] = 5
	row := grid[1]
	row[0] = 4
	grid[0] = row
	grid[0][0]++
	fmt.Println(grid, len(grid[2]))
	tri := [][]int{{}, {1}, {1, 2}}
	tri[0] = append(tri[0], 9)
	tri = append(tri, nil)
	fmt.Println(tri)
}
