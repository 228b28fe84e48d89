// Fibonacci numbers by powers of a 2 by 2 array.
package main

import "fmt"

type m2 [2][2]uint64

func (a m2) mul(b m2) (c m2) {
	for i := range 2 {
		for j := range 2 {
			c[i][j] = a[i][0]*b[0][j] + a[i][1]*b[1][j]
		}
	}
	return
}
func fib(n int) uint64 {
	r, b := m2{{1, 0}, {0, 1}}, m2{{1, 1}, {1, 0}}
	for ; n > 0; n >>= 1 {
		if n&1 == 1 {
			r = r.mul(b)
		}
		b = b.mul(b)
	}
	return r[0][1]
}

func main() {
	for _, n := range []int{0, 1, 2, 10, 50, 93} {
		fmt.Println(n, fib(n))
	}
}
