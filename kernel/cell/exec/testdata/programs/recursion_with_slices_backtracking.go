// Backtracking with append shares the array unless it is cut.
package main

import "fmt"

func main() {
	var out [][]int
	var walk func(path []int, left int)
	walk = func(path []int, left int) {
		if left == 0 {
			out = append(out, append([]int(nil), path...))
			return
		}
		for i := 1; i <= left; i++ {
			if len(path) > 0 && i > path[len(path)-1] {
				break
			}
			walk(append(path, i), left-i)
		}
	}
	walk(make([]int, 0, 10), 5)
	fmt.Println(len(out), out)
}
