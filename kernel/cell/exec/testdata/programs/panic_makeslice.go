// A make with a bad length or capacity panics.
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
	n := -1
	try("len", func() { fmt.Println(make([]int, n)) })
	try("cap", func() { fmt.Println(make([]int, 0, n)) })
	big := 1 << 62
	try("huge", func() { fmt.Println(len(make([]int, big))) })
	three, two := 3, 2
	try("len over cap", func() { fmt.Println(make([]int, three, two)) })
	fmt.Println(len(make([]int, two, three)))
	m := make(map[string]int, n+1)
	fmt.Println(len(m))
}
