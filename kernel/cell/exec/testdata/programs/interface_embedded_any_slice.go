// Slices of interfaces hold mixed values and are copied element by element.
package main

import "fmt"

func main() {
	xs := []any{1, "two", 3.0, nil, []int{4}, [1]bool{true}}
	ys := append([]any(nil), xs...)
	ys[0] = "changed"
	ys[4].([]int)[0] = 40
	fmt.Println(xs, ys, len(xs))
	nums := []int{1, 2}
	as := make([]any, len(nums))
	for i, n := range nums {
		as[i] = n
	}
	fmt.Println(as...)
}
