// State machines as functions that return the next function.
package main

import "fmt"

type state func(rune) state

func main() {
	words, n := []string{}, 0
	cur := ""
	var out, in state
	out = func(r rune) state {
		if r == ' ' {
			return out
		}
		return in(r)
	}
	in = func(r rune) state {
		if r == ' ' {
			words = append(words, cur)
			cur = ""
			return out
		}
		cur += string(r)
		n++
		return in
	}
	st := out
	for _, r := range " ab c  déf " {
		st = st(r)
	}
	fmt.Printf("%q %d %q\n", words, n, cur)
}
