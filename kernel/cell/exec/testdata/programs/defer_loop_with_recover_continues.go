// Work goes on after a failed item when each item has its own guarded call.
package main

import "fmt"

func each(xs []int, f func(int) int) (out []string) {
	for _, x := range xs {
		func() {
			defer func() {
				if r := recover(); r != nil {
					out = append(out, fmt.Sprintf("%d failed", x))
				}
			}()
			out = append(out, fmt.Sprintf("%d ok", f(x)))
		}()
	}
	return
}

func main() {
	fmt.Println(each([]int{5, 0, 2}, func(x int) int { return 10 / x }))
}
