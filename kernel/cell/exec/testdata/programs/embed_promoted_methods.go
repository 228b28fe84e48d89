// Methods of embedded types are promoted with their own receiver.
package main

import "fmt"

type animal struct{ name string }

func (a animal) hello() string    { return "I am " + a.name }
func (a *animal) rename(s string) { a.name = s }

type dog struct {
	animal
	age int
}
type puppy struct{ *dog }

func main() {
	d := dog{animal{"Rex"}, 3}
	d.rename("Max")
	p := puppy{&d}
	p.rename("Bit")
	fmt.Println(d.hello(), p.hello(), p.age, d.animal.hello())
	f := p.hello
	d.name = "Zoe"
	fmt.Println(f(), p.hello())
}
