// Byte and rune slices print as numbers or as text by verb.
package main

import "fmt"

func main() {
	b := []byte("hé")
	r := []rune("hé")
	fmt.Println(b, r, string(b), string(r))
	fmt.Printf("%s %q %x % x %X %v %d\n", b, b, b, b, b, b, b)
	fmt.Printf("%c %q %U %v %x\n", r, r, r, r, r)
	type hex byte
	fmt.Printf("%v %x %s %c\n", []hex{1, 255}, []hex{1, 255}, [3]byte{65, 66, 67}, [2]byte{65, 66})
	fmt.Printf("%s|%v|%d\n", []byte(nil), []byte{}, []byte{7})
}
