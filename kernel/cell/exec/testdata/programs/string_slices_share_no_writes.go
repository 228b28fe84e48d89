// A string cut from another is not changed by later work on its bytes.
package main

import (
	"fmt"
	"strings"
)

func main() {
	b := []byte("hello world")
	s := string(b)
	w := s[6:]
	for i := range b {
		b[i] = '-'
	}
	fmt.Println(s, w, string(b))
	m := map[string]int{w: 1}
	w += "!"
	fmt.Println(m["world"], m[w], w, s[:5]+w)
	u := strings.ToUpper(s)
	fmt.Println(s, u, u[:1]+s[1:])
}
