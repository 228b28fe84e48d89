// An embedded interface gives its methods and can be overridden in part.
package main

import "fmt"

type shape interface {
	area() float64
	name() string
}
type square struct{ a float64 }

func (s square) area() float64 { return s.a * s.a }
func (s square) name() string  { return "square" }

type renamed struct {
	shape
	title string
}

func (r renamed) name() string { return r.title + " " + r.shape.name() }

func try(name string, f func()) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Println(name+":", r)
		}
	}()
	f()
}

func main() {
	var s shape = renamed{square{3}, "big"}
	fmt.Println(s.area(), s.name())
	s = renamed{s, "very"}
	fmt.Println(s.area(), s.name())
	try("nil", func() { fmt.Println(renamed{title: "x"}.area()) })
}
