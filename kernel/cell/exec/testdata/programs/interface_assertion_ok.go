// A value in an any is found to have an interface's methods.
package main

import "fmt"

type S interface{ m() string }
type A struct{}

func (A) m() string { return "A.m" }

func main() {
	var v any = A{}
	s, ok := v.(S)
	fmt.Println(ok, s.m())
	_, ok = v.(interface{ m() int })
	fmt.Println(ok)
	_, ok = any(&A{}).(S)
	fmt.Println(ok)
}
