// The address of a three-clause loop variable differs in each turn.
package main

import "fmt"

func main() {
	var ps []*int
	for i := 0; i < 3; i++ {
		ps = append(ps, &i)
	}
	fmt.Println(*ps[0], *ps[1], *ps[2])
}
