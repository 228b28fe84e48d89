// A recursion of some thousand levels returns its value.
package main

import "fmt"

func depth(n int) int {
	if n == 0 {
		return 0
	}
	return 1 + depth(n-1)
}
func ack(m, n int) int {
	switch {
	case m == 0:
		return n + 1
	case n == 0:
		return ack(m-1, 1)
	}
	return ack(m-1, ack(m, n-1))
}

func main() {
	fmt.Println(depth(5000), ack(2, 9))
}
