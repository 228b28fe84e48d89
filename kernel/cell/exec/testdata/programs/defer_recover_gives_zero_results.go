// Without named results a recovered function returns zero values.
package main

import "fmt"

func f() (int, string, []int) {
	defer func() { recover() }()
	panic("x")
}

func main() {
	n, s, l := f()
	fmt.Println(n, s == "", l == nil)
}
