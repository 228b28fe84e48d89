// The builtins min and max order strings.
package main

import "fmt"

func main() {
	a, b, c := "pear", "apple", "zoo"
	fmt.Println(min(a, b, c), max(a, b, c), min(a), max("a", b), min("b", "a") == "a")
}
