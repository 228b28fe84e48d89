// Named string, byte and rune types convert alike.
package main

import "fmt"

type text string
type octets []byte
type letters []rune

func main() {
	t := text("héy")
	o := octets(t)
	l := letters(t)
	o[0] = 'H'
	fmt.Println(t, len(o), len(l), text(o), string(l), text(l[1:]), string(t)+"!")
	fmt.Printf("%T %T %s %v\n", t, t[0], o, t[1:])
	for i, r := range t {
		fmt.Printf("%d%c", i, r)
	}
	fmt.Println()
}
