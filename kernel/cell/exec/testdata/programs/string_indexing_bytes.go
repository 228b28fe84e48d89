// Indexing a string gives bytes.
package main

import "fmt"

func main() {
	s := "né"
	fmt.Println(s[0], s[1], s[2], len(s))
	fmt.Printf("%T %c %x\n", s[0], s[0], s)
	var sum int
	for i := 0; i < len(s); i++ {
		sum += int(s[i])
	}
	fmt.Println(sum)
}
