// Factors by trial division counted in a map.
package main

import "fmt"

func main() {
	factors := func(n int) (out []int) {
		for p := 2; p*p <= n; p++ {
			for ; n%p == 0; n /= p {
				out = append(out, p)
			}
		}
		if n > 1 {
			out = append(out, n)
		}
		return
	}
	for _, n := range []int{1, 2, 97, 360, 1001, 1 << 20, 600851475143} {
		m := map[int]int{}
		for _, p := range factors(n) {
			m[p]++
		}
		fmt.Println(n, m)
	}
}
