// Flags made by iota combine and clear.
package main

import "fmt"

type flag uint8

const (
	read flag = 1 << iota
	write
	exec
	all = read | write | exec
)

func (f flag) String() string {
	s := ""
	for i, n := range []string{"r", "w", "x"} {
		if f&(1<<i) != 0 {
			s += n
		} else {
			s += "-"
		}
	}
	return s
}

func main() {
	f := read | exec
	fmt.Println(f, f&^read, all, all&^write, ^f&all, f|write == all, flag(0))
	fmt.Printf("%d %s %v\n", uint8(f), f, []flag{read, write})
}
