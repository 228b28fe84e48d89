// A closure gives the order and sees the slice while it is sorted.
package main

import (
	"fmt"
	"sort"
)

func main() {
	type p struct {
		name string
		age  int
	}
	ps := []p{{"Ann", 30}, {"Bob", 25}, {"Cid", 30}, {"Dan", 20}}
	sort.Slice(ps, func(i, j int) bool {
		if ps[i].age != ps[j].age {
			return ps[i].age > ps[j].age
		}
		return ps[i].name > ps[j].name
	})
	fmt.Println(ps)
	sort.SliceStable(ps, func(i, j int) bool { return len(ps[i].name)+ps[i].age/30 < len(ps[j].name)+ps[j].age/30 })
	fmt.Println(ps)
}
