// Mistakes in a format are reported in the output.
package main

import "fmt"

func main() {
	fmt.Printf("%d %s\n", "s", 5)
	fmt.Printf("%d\n", 1, 2)
	fmt.Printf("%d %d\n", 1)
	fmt.Printf("%!\n")
	fmt.Printf("%z %t\n", 1, 1)
	fmt.Printf("%s %d\n", nil, nil)
	fmt.Printf("%s %d %x\n", []any{1, "a"}, []string{"b"}, true)
	fmt.Printf("%[5]d\n", 1)
}
