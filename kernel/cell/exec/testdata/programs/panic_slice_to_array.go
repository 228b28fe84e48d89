// Converting a slice that is too short to an array panics with both lengths.
package main

import "fmt"

func try(name string, f func()) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Println(name+":", r)
		}
	}()
	f()
}

func main() {
	s := []int{1, 2, 3}
	try("array", func() { fmt.Println([4]int(s)) })
	try("array pointer", func() { fmt.Println((*[5]int)(s)) })
	fmt.Println([2]int(s), *(*[3]int)(s))
	var nilS []int
	fmt.Println((*[0]int)(nilS) == nil, (*[0]int)([]int{}) == nil)
	try("nil", func() { fmt.Println([1]int(nilS)) })
}
