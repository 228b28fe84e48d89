// Locals may be named like predeclared things.
package main

import "fmt"

func main() {
	len := func(s string) int { return 42 }
	true := false
	nil := "nil"
	string := 7
	int := 2.5
	fmt.Println(len("abc"), true, nil, string, int)
	{
		new, append, any, iota := 1, 2, 3, 4
		fmt.Println(new + append + any + iota)
	}
	for print := range 2 {
		fmt.Print(print)
	}
	fmt.Println()
}
