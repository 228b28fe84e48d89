// A variable that several exits set keeps the value of the exit taken.
package main

import "fmt"

func main() {
	f := func(xs []int) (r string) {
		n := 0
		for i, x := range xs {
			n += x
			if x < 0 {
				r = fmt.Sprintf("neg at %d", i)
				break
			}
			if n > 10 {
				r = fmt.Sprintf("sum %d", n)
				return
			}
			if x == 0 {
				n -= 100
				continue
			}
			n++
		}
		return r + fmt.Sprintf(" end %d", n)
	}
	fmt.Println(f([]int{1, 2}), f([]int{1, -2, 3}), f([]int{9, 9, 9}), f([]int{5, 0, 9}), f(nil))
}
