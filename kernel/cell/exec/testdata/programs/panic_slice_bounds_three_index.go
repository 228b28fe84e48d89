// Each of the three bounds of a full slice expression is checked.
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
	s := make([]int, 3, 4)
	a, b, c := 0, 2, 5
	try("max", func() { fmt.Println(s[a:b:c]) })
	c = 1
	try("high over max", func() { fmt.Println(s[a:b:c]) })
	a, c = 3, 4
	try("low over high", func() { fmt.Println(s[a:b:c]) })
	arr := [3]int{}
	c = 4
	a = 0
	try("array", func() { fmt.Println(arr[a:b:c]) })
}
