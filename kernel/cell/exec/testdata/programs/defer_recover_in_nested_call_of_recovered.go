// A function that recovered may itself be called while another panic is under way.
package main

import "fmt"

func quiet(n int) (s string) {
	defer func() { s = fmt.Sprintf("quiet %v", recover()) }()
	if n == 0 {
		panic("bottom")
	}
	return quiet(n - 1)
}
func f() {
	defer func() { fmt.Println("f", recover()) }()
	defer func() { fmt.Println(quiet(2)); fmt.Println(quiet(0)) }()
	panic("top")
}

func main() {
	f()
}
