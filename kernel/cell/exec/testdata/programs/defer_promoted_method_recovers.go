// A promoted method may recover when it is deferred itself.
package main

import "fmt"

type base struct{ name string }

func (b *base) rescue()   { fmt.Println(b.name, "pointer", recover()) }
func (b base) rescueVal() { fmt.Println(b.name, "value", recover()) }

type outer struct{ *base }
type rescuer interface {
	rescue()
	rescueVal()
}

func a(o outer)   { defer o.rescue(); panic(1) }
func b(r rescuer) { defer r.rescueVal(); panic(2) }
func c(o outer)   { f := o.rescueVal; defer f(); panic(3) }
func d(o outer)   { defer outer.rescue(o); panic(4) }

func main() {
	o := outer{&base{"x"}}
	a(o)
	b(o)
	c(o)
	d(o)
}
