// An outer method hides the promoted one, which stays callable by its path.
package main

import "fmt"

type base struct{}

func (base) who() string    { return "base" }
func (b base) call() string { return "call " + b.who() }

type derived struct{ base }

func (derived) who() string { return "derived" }

type third struct{ derived }

func (t third) who() string { return "third over " + t.derived.who() + " over " + t.base.who() }

func main() {
	d := derived{}
	fmt.Println(d.who(), d.base.who(), d.call(), third{}.who(), third{}.call())
}
