// The message of an index out of range names index and length.
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
	s, i := []int{1, 2, 3}, 3
	try("slice", func() { fmt.Println(s[i]) })
	a := [2]int{}
	try("array", func() { fmt.Println(a[i]) })
	try("array pointer", func() { p := &a; p[i] = 1 })
	try("string", func() { fmt.Println("abc"[i]) })
	i = -1
	try("negative", func() { fmt.Println(s[i]) })
	try("negative string", func() { fmt.Println("abc"[i]) })
	s = nil
	i = 0
	try("nil slice", func() { s[i] = 1 })
}
