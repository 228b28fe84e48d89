// A nil slice and an empty slice differ only in comparison with nil.
package main

import "fmt"

func main() {
	var n []int
	e := []int{}
	fmt.Println(n == nil, e == nil, len(n), len(e), n, e)
	for range n {
		fmt.Println("never")
	}
	fmt.Println(append(n, 1), append(n) == nil, append(e) == nil, append([]int(nil), e...) == nil)
	fmt.Println(n[:] == nil, e[:0] == nil, n[0:0] == nil, len(n[:0]))
	fmt.Printf("%v %#v %#v %d\n", n, n, e, n)
	n = append(n, n...)
	fmt.Println(n == nil)
}
