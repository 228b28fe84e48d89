// Deferred calls of loops and branches keep their order.
package main

import "fmt"

func f(n int) (out []int) {
	defer func() { fmt.Println(out) }()
	for i := range n {
		if i%2 == 0 {
			defer func() { out = append(out, i) }()
			continue
		}
		defer func(k int) { out = append(out, k*10) }(i)
	}
	return nil
}

func main() {
	f(5)
	f(0)
	fmt.Println(f(2))
}
