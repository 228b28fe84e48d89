// The ranged expression is evaluated once, before the loop.
package main

import "fmt"

func main() {
	calls := 0
	get := func() []int { calls++; return []int{5, 6} }
	for i, v := range get() {
		fmt.Printf("%d:%d ", i, v)
	}
	for i := range len(get()) + calls {
		fmt.Print(i, " ")
	}
	fmt.Println(calls)
}
