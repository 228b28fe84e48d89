// Strings compare byte by byte and concatenate.
package main

import "fmt"

func main() {
	a, b := "abc", "abd"
	fmt.Println(a < b, a+b, a == "ab"+"c", "Z" < "a", "" < "a", "é" > "z", "ab" < "abc", a >= b, a != b)
	a += "x"
	a = "<" + a + ">"
	fmt.Println(a, b+a[1:3])
}
