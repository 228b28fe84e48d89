// Indexes of unsigned and small types are checked without wrapping round.
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
	var u8 uint8 = 200
	var i8 int8 = -1
	var u64 uint64 = 1 << 63
	var u32 uint32 = 1<<32 - 1
	try("uint8", func() { fmt.Println(s[u8]) })
	try("int8", func() { fmt.Println(s[i8]) })
	try("uint64", func() { fmt.Println(s[u64]) })
	try("uint32", func() { fmt.Println(s[u32]) })
	u8 = 2
	fmt.Println(s[u8])
}
