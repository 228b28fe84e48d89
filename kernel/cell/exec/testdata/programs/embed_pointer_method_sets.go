// A struct that embeds a pointer has the pointer's methods as a value.
package main

import "fmt"

type inner struct{ n int }

func (i *inner) bump()   { i.n++ }
func (i inner) get() int { return i.n }

type bumper interface {
	bump()
	get() int
}
type byPtr struct{ *inner }
type byVal struct{ inner }

func main() {
	p := byPtr{&inner{1}}
	v := byVal{inner{10}}
	for _, b := range []bumper{p, &v, p.inner, &p} {
		b.bump()
		fmt.Printf("%d ", b.get())
	}
	fmt.Println(p.n, v.n)
	_, ok := any(v).(bumper)
	fmt.Println(ok)
}
