// Closures over several results of one call.
package main

import "fmt"

func main() {
	mk := func(n int) (int, []int, error) { return n, []int{n, n}, nil }
	var fs []func() int
	for i := range 3 {
		a, s, err := mk(i)
		fs = append(fs, func() int {
			if err != nil {
				return -1
			}
			a += s[0]
			s[0]++
			return a
		})
	}
	for _, f := range fs {
		x := f()
		fmt.Println(x, f())
	}
}
