// One function works on strings and byte slices.
package main

import "fmt"

func countByte[T ~string | ~[]byte](s T, b byte) (n int) {
	for i := 0; i < len(s); i++ {
		if s[i] == b {
			n++
		}
	}
	return
}
func tail[T ~string | ~[]byte](s T, n int) string { return string(s[len(s)-n:]) }
func clone[T ~string | ~[]byte](s T) []byte       { return append([]byte(nil), s...) }

type name string

func main() {
	fmt.Println(countByte("banana", 'a'), countByte([]byte("xx"), 'x'), tail(name("hello"), 3), tail([]byte("abc"), 1), string(clone("cl")))
	b := []byte("orig")
	c := clone(b)
	c[0] = 'O'
	fmt.Println(string(b), string(c))
}
