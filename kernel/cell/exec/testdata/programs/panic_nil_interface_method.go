// Calling a method of a nil interface is a nil dereference.
package main

import "fmt"

type shape interface{ area() float64 }
type sq struct{ a float64 }

func (s *sq) area() float64 { return s.a * s.a }

func try(name string, f func()) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Println(name+":", r)
		}
	}()
	f()
}

func main() {
	var s shape
	try("nil interface", func() { fmt.Println(s.area()) })
	var err error
	try("nil error", func() { fmt.Println(err.Error()) })
	s = (*sq)(nil)
	try("typed nil", func() { fmt.Println(s.area()) })
	s = &sq{3}
	fmt.Println(s.area())
}
