// A ring buffer on a fixed array overwrites the oldest.
package main

import "fmt"

type ring struct {
	buf      [4]int
	start, n int
}

func (r *ring) push(x int) {
	r.buf[(r.start+r.n)%len(r.buf)] = x
	if r.n < len(r.buf) {
		r.n++
	} else {
		r.start = (r.start + 1) % len(r.buf)
	}
}
func (r ring) values() (out []int) {
	for i := range r.n {
		out = append(out, r.buf[(r.start+i)%len(r.buf)])
	}
	return
}

func main() {
	var r ring
	for i := range 7 {
		r.push(i * i)
		fmt.Println(r.values())
	}
	saved := r
	r.push(100)
	fmt.Println(saved.values(), r.values(), r.buf)
}
