// Interfaces embed interfaces, overlapping methods included.
package main

import (
	"fmt"
	"strings"
)

type reader interface {
	read() string
	shut()
}
type writer interface {
	write(string)
	shut()
}
type both interface {
	reader
	writer
}
type file struct{ log []string }

func (f *file) read() string   { return strings.Join(f.log, "+") }
func (f *file) write(s string) { f.log = append(f.log, s) }
func (f *file) shut()          { f.write("shut") }

func main() {
	var b both = &file{}
	b.write("a")
	var w writer = b
	w.write("b")
	w.(reader).shut()
	fmt.Println(b.read(), w.(both) == b)
}
