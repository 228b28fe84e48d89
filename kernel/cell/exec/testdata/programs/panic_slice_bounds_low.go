// A slice expression whose low bound passes the high one panics.
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
	lo, hi := 2, 1
	try("slice", func() { fmt.Println(s[lo:hi]) })
	try("string", func() { fmt.Println("hello"[lo:hi]) })
	lo = 4
	try("low only", func() { fmt.Println(s[lo:]) })
	try("low only string", func() { fmt.Println("abc"[lo:]) })
	lo = 3
	fmt.Println(len(s[lo:]), "abc"[lo:] == "")
}
