// A panic in a String method is reported in the output by fmt.
package main

import (
	"fmt"
	"strconv"
)

type bad struct{}

func (bad) String() string { panic("no text") }

type nilsafe struct{ n int }

func (p *nilsafe) String() string { return strconv.Itoa(p.n) }

func main() {
	fmt.Println(bad{})
	var p *nilsafe
	fmt.Printf("%v|%s\n", p, p)
	fmt.Printf("%d|%v\n", bad{}, &nilsafe{4})
}
