// Package-level variables and constants are seen by all functions.
package main

import "fmt"

const unit = "V"

var total, calls = 10, 0
var table = map[string]func(int) int{"add": add}

func add(n int) int { total += n; calls++; return total }
func show() string  { return fmt.Sprintf("%d%s", total, unit) }

func main() {
	fmt.Println(add(5), show(), table["add"](1))
	fmt.Println(calls)
	total := "local"
	fmt.Println(total, show())
}
