// A failed assertion between types of the program gives their qualified names.
package main

import "fmt"

type celsius float64
type shape interface{ area() float64 }
type circle struct{ r float64 }

func (c *circle) area() float64 { return c.r }

func try(name string, f func()) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Println(name+":", r)
		}
	}()
	f()
}

func main() {
	var v any = celsius(20)
	try("named", func() { fmt.Println(v.(float64)) })
	v = 20.0
	try("to named", func() { fmt.Println(v.(celsius)) })
	v = circle{1}
	try("pointer receiver", func() { fmt.Println(v.(shape)) })
	try("struct as pointer", func() { fmt.Println(v.(*circle)) })
	var s shape = &circle{2}
	try("pointer as struct", func() { fmt.Println(s.(interface{ area() int })) })
	fmt.Println(s.(*circle).r)
}
