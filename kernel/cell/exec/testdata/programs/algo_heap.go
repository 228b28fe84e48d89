// A hand-made binary heap serves as a generic priority queue.
package main

import (
	"cmp"
	"fmt"
	"strings"
)

type pq[T cmp.Ordered] []T

func (q pq[T]) swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *pq[T]) push(x T) {
	h := append(*q, x)
	for i := len(h) - 1; i > 0 && h[i] < h[(i-1)/2]; i = (i - 1) / 2 {
		h.swap(i, (i-1)/2)
	}
	*q = h
}
func (q *pq[T]) pop() T {
	n := len(*q) - 1
	q.swap(0, n)
	h := (*q)[:n]
	for i, c := 0, 1; c < n; i, c = c, 2*c+1 {
		if c+1 < n && h[c+1] < h[c] {
			c++
		}
		if h[c] < h[i] {
			h.swap(i, c)
		}
	}
	x := (*q)[n]
	*q = h
	return x
}

func main() {
	var q pq[string]
	for _, x := range strings.Fields("m c x a q f b") {
		q.push(x)
	}
	for len(q) > 0 {
		fmt.Print(q.pop(), " ")
	}
	fmt.Println()
}
