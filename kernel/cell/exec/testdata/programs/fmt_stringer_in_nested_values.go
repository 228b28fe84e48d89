// Methods are found in exported and nested places of composites.
package main

import (
	"fmt"
	"strconv"
)

type id int

func (i id) String() string { return "#" + strconv.Itoa(int(i)) }

type Row struct {
	ID   id
	Tags []id
	By   map[id]id
	Any  any
}

func main() {
	r := Row{1, []id{2, 3}, map[id]id{5: 6, 4: 7}, id(8)}
	fmt.Println(r)
	fmt.Printf("%v\n%+v\n", r, r)
	fmt.Println([]any{id(1), []id{2}, [][]id{{3}, {4, 5}}})
}
