// Assertions go between interfaces in both directions.
package main

import "fmt"

type r interface{ read() string }
type w interface{ write(string) }
type rw interface {
	r
	w
}
type dev struct{ s string }

func (d *dev) read() string   { return d.s }
func (d *dev) write(s string) { d.s = s }

type ro string

func (x ro) read() string { return string(x) }

func main() {
	for _, x := range []r{&dev{"d"}, ro("o")} {
		if y, ok := x.(w); ok {
			y.write("new")
			fmt.Println("rw", y.(rw).read())
		} else {
			fmt.Println("ro", x.read())
		}
	}
	var a rw = &dev{"z"}
	var b r = a
	fmt.Println(b == a, b.(*dev) == a.(*dev))
}
