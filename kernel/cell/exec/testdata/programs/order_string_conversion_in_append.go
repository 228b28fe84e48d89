// Operands of append that change the slice see defined values.
package main

import "fmt"

func main() {
	s := []int{1, 2}
	grow := func() int { s = append(s, 100); return len(s) }
	t := append([]int{}, grow(), grow())
	fmt.Println(s, t)
	x := 1
	g := func() int { x *= 2; return x }
	arr := [3]int{g(), g(), g()}
	st := struct{ b, a int }{a: g(), b: g()}
	fmt.Println(arr, st, x)
}
