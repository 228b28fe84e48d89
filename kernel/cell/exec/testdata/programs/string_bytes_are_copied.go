// A conversion between string and bytes copies.
package main

import "fmt"

func main() {
	s := "abc"
	b := []byte(s)
	b[0] = 'X'
	t := string(b)
	b[1] = 'Y'
	fmt.Println(s, t, string(b))
	rs := []rune("añb")
	rs[1] = 'n'
	fmt.Println(string(rs), string(rs[1:]))
}
