// Arrays are equal if all elements are.
package main

import (
	"fmt"
	"math"
)

func main() {
	a, b := [3]int{1, 2, 3}, [...]int{1, 2, 3}
	fmt.Println(a == b, a != [3]int{1, 2, 4}, [2]string{"x"} == [2]string{"x", ""}, [0]int{} == [0]int{})
	fmt.Println([2]any{1, "a"} == [2]any{1, "a"}, [2][2]int{{1}, {2}} == [2][2]int{{1, 0}, {2, 0}}, [1]float64{math.NaN()} == [1]float64{math.NaN()})
	p := &a
	q := p
	fmt.Println(p == q, *p == b, p == &b)
}
