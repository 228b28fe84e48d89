// Breadth first search through a maze held in strings.
package main

import "fmt"

func main() {
	maze := []string{"S.#.", "..#.", ".#..", "...E"}
	type pos struct{ r, c int }
	dist := map[pos]int{{0, 0}: 0}
	queue := []pos{{0, 0}}
	for len(queue) > 0 {
		p := queue[0]
		queue = queue[1:]
		if maze[p.r][p.c] == 'E' {
			fmt.Println("reached in", dist[p])
		}
		for _, d := range [...]pos{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			q := pos{p.r + d.r, p.c + d.c}
			if q.r < 0 || q.c < 0 || q.r >= len(maze) || q.c >= len(maze[0]) || maze[q.r][q.c] == '#' {
				continue
			}
			if _, seen := dist[q]; seen {
				continue
			}
			dist[q] = dist[p] + 1
			queue = append(queue, q)
		}
	}
	fmt.Println(len(dist))
}
