// A variable declared in a loop made with goto is fresh each time round.
package main

import "fmt"

func main() {
	var fs []func() int
	n := 0
loop:
	{
		x := n * n
		fs = append(fs, func() int { x++; return x })
	}
	n++
	if n < 3 {
		goto loop
	}
	for _, f := range fs {
		fmt.Println(f(), f())
	}
}
