// A defined type is new, an alias is the same type.
package main

import "fmt"

type mine int
type same = int
type fs = map[string][]func(int) same

func main() {
	var a mine = 3
	var b same = 4
	var c int = b
	fmt.Println(int(a)+c, a+mine(b), a == 3)
	var i any = b
	_, ok := i.(int)
	_, ok2 := i.(mine)
	fmt.Println(ok, ok2)
	fmt.Printf("%T %T\n", a, b)
	m := fs{"inc": {func(n int) int { return n + 1 }}}
	fmt.Println(m["inc"][0](1))
}
