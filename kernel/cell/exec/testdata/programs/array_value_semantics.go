// Arrays are copied on assignment, in calls and in results.
package main

import "fmt"

func change(a [3]int) [3]int { a[0] = 9; return a }
func ptr(a *[3]int)          { a[1] = 8 }

func main() {
	a := [3]int{1, 2, 3}
	b := a
	b[2] = 30
	c := change(a)
	ptr(&a)
	fmt.Println(a, b, c)
	s := struct{ arr [3]int }{a}
	t := s
	t.arr[0] = 100
	fmt.Println(s, t, s == t)
	var i any = a
	a[0] = 77
	fmt.Println(i, i == any([3]int{1, 8, 3}))
}
