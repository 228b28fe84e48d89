// Named basic types, pointers and aliases can be embedded.
package main

import "fmt"

type meters float64

func (m meters) String() string { return fmt.Sprintf("%gm", float64(m)) }

type length = meters
type rod struct {
	length
	id int
}

func main() {
	r := rod{2.5, 7}
	r.length *= 2
	fmt.Println(r.length, r, r.String())
	fmt.Printf("%d\n", r.id)
}
