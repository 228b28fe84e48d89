// Functions are looked up in a map and a missing one is nil.
package main

import "fmt"

func main() {
	ops := map[string]func(int, int) int{
		"+": func(a, b int) int { return a + b },
		"-": func(a, b int) int { return a - b },
		"*": func(a, b int) int { return a * b },
	}
	for _, k := range []string{"+", "-", "*", "/"} {
		if f, ok := ops[k]; ok {
			fmt.Println(k, f(7, 3))
		} else {
			fmt.Println(k, f == nil)
		}
	}
}
