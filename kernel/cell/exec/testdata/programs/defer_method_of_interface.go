// The dynamic value of a deferred interface method is taken at the defer statement.
package main

import "fmt"

type speaker interface{ speak() }
type dog struct{}
type cat struct{}

func (dog) speak() { fmt.Println("woof") }
func (cat) speak() { fmt.Println("meow") }

func main() {
	var s speaker = dog{}
	defer s.speak()
	s = cat{}
	s.speak()
}
