// Value methods are called on results, literals, map elements and constants.
package main

import "fmt"

type v struct{ x int }

func (a v) add(n int) v { return v{a.x + n} }
func (a *v) inc() *v    { a.x++; return a }

type d int

func (x d) half() d { return x / 2 }

func main() {
	m := map[string]v{"a": {5}}
	f := func() v { return v{7} }
	fmt.Println(m["a"].add(1), f().add(2), v{1}.add(3).add(4), (&v{9}).inc().add(1), d(9).half().half())
	const k d = 21
	fmt.Println(k.half(), (v{2}).x, m["none"].add(8), *(&v{3}).inc().inc())
}
