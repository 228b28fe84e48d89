// The ranged string is fixed although the variable is reassigned.
package main

import "fmt"

func main() {
	s := "añb"
	for i, r := range s {
		s += string(r)
		fmt.Print(i, string(r), " ")
	}
	fmt.Println(s)
	t := "xyz"
	for i := range t {
		t = t[:len(t)-1]
		fmt.Print(i, t, " ")
	}
	b := []byte("abc")
	for i, c := range string(b) {
		b[2] = 'Z'
		fmt.Print(i, string(c))
	}
	fmt.Println()
}
