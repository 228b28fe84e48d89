// Strings serve as switch tags and map keys by content.
package main

import "fmt"

func main() {
	count := map[string]int{}
	b := []byte("key")
	count[string(b)]++
	b[0] = 'h'
	count[string(b)]++
	count["k"+"ey"]++
	fmt.Println(count, len(count))
	switch string(b) {
	case "key":
		fmt.Println("no")
	case "h" + "ey":
		fmt.Println("hey")
	}
}
