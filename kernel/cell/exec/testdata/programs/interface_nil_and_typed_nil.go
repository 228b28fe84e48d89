// An interface with a nil pointer in it is not nil.
package main

import "fmt"

type e struct{}

func (*e) Error() string { return "e" }
func bad() error         { var p *e; return p }
func good() error        { return nil }

func main() {
	fmt.Println(bad() == nil, good() == nil, bad() != nil)
	var p *e
	var err error = p
	fmt.Println(err == p, err == (*e)(nil), p == nil, err)
	fmt.Printf("%T %T\n", err, good())
	_, ok := err.(*e)
	_, ok2 := good().(*e)
	fmt.Println(ok, ok2)
}
