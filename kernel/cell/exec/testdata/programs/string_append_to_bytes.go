// A string's bytes are appended and copied to a byte slice.
package main

import "fmt"

func main() {
	b := []byte("go")
	b = append(b, " lang"...)
	n := copy(b[1:], "XYZ")
	fmt.Println(string(b), n, copy(b, "é"))
	fmt.Printf("%s %q %x %v\n", b, b, b[:2], b[:2])
}
