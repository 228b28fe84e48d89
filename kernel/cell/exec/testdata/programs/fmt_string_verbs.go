// Strings print plain, quoted, padded and in hexadecimal.
package main

import "fmt"

func main() {
	s := "héllo\n"
	fmt.Printf("%s|%q|%x|%X|% x|%10.3s|%-8.2s|%+q|%#q\n", s[:6], s, s, "hi", "hi", s, s, s, "ab")
	fmt.Printf("%5s|%-5s|%.1s|%s|%v\n", "世界", "世界", "世界", []string{"a", "b"}, []byte("hi"))
	fmt.Printf("%s %x %q\n", []byte("bytes"), []byte{1, 171}, []string{"a b", "c"})
	fmt.Printf("%q %q %q\n", 'x', '\n', 0x1F600)
}
