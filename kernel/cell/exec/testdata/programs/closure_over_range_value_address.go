// The address of a range value differs in each turn.
package main

import "fmt"

func main() {
	var ps []*int
	for _, v := range []int{10, 20, 30} {
		ps = append(ps, &v)
	}
	for _, p := range ps {
		*p++
	}
	fmt.Println(*ps[0], *ps[1], *ps[2], ps[0] == ps[1])
}
