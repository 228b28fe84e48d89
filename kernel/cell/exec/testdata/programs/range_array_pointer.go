// A range over a pointer to an array reads the array itself.
package main

import (
	"fmt"
	"strconv"
)

func main() {
	a := [4]string{"a", "b", "c", "d"}
	p := &a
	for i := range p {
		p[i] += strconv.Itoa(i)
	}
	for i, s := range p {
		if i+1 < len(p) {
			p[i+1] = s + p[i+1]
		}
	}
	fmt.Println(a)
	var np *[3]int
	for i := range np {
		fmt.Print(i)
	}
	fmt.Println(len(np))
}
