// Closures made in the body have the turn's own variable.
package main

import "fmt"

func main() {
	seq := func(yield func(int, string) bool) {
		for i, s := range []string{"a", "b", "c"} {
			if !yield(i, s) {
				return
			}
		}
	}
	var fs []func() string
	for i, s := range seq {
		i *= 10
		fs = append(fs, func() string { i++; return fmt.Sprintf("%s%d", s, i) })
	}
	for _, f := range fs {
		fmt.Println(f(), f())
	}
}
