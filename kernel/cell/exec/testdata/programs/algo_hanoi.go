// The towers of Hanoi move slices used as stacks.
package main

import "fmt"

func main() {
	pegs := [3][]int{{4, 3, 2, 1}, {}, {}}
	moves := 0
	var move func(n, from, to, via int)
	move = func(n, from, to, via int) {
		if n == 0 {
			return
		}
		move(n-1, from, via, to)
		last := len(pegs[from]) - 1
		pegs[to] = append(pegs[to], pegs[from][last])
		pegs[from] = pegs[from][:last]
		moves++
		move(n-1, via, to, from)
	}
	move(4, 0, 2, 1)
	fmt.Println(moves, pegs)
}
