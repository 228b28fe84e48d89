// Negative bounds of a slice expression panic with a message of their own.
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
	n := -1
	try("low", func() { fmt.Println(s[n:]) })
	try("high", func() { fmt.Println(s[:n]) })
	try("string low", func() { fmt.Println("abc"[n:]) })
	try("string high", func() { fmt.Println("abc"[:n]) })
	try("max", func() { fmt.Println(s[0:1:n]) })
}
