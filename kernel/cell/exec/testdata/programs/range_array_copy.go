// A range over an array walks a copy when the value is used.
package main

import "fmt"

func main() {
	a := [3]int{1, 2, 3}
	for i, v := range a {
		a[2] = 10
		if i == 2 {
			fmt.Println(v, a)
		}
	}
	b := [3]int{1, 2, 3}
	for i, v := range &b {
		b[2] = 10
		if i == 2 {
			fmt.Println(v)
		}
	}
	for i := range a {
		a[i] = i
	}
	fmt.Println(a)
}
