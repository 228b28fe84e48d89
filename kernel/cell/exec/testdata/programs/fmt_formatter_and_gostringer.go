// Types may take over their formatting altogether.
package main

import "fmt"

type f struct{ n int }

func (x f) Format(s fmt.State, verb rune) {
	w, ok := s.Width()
	fmt.Fprintf(s, "[%c %d %t %t %d]", verb, w, ok, s.Flag('+'), x.n)
}

type g struct{ n int }

func (g) GoString() string { return "g!" }

func main() {
	fmt.Printf("%v %+5d %s\n", f{1}, f{2}, f{3})
	fmt.Println(f{4}, []f{{5}})
	fmt.Printf("%#v %v %#v\n", g{1}, g{2}, []g{{3}}[0])
}
