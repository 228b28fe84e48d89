// Conversions from runes and bytes make strings.
package main

import "fmt"

func main() {
	r := '世'
	fmt.Println(string(r), string(rune(65)), string(rune(-1)) == "\uFFFD", string(rune(0x110000)), string([]byte{104, 105}), string([]rune{72, 0x1F600}))
	fmt.Println([]byte("hé"), []rune("hé"), []byte(""), len([]rune(nil)), string([]byte(nil)) == "")
}
