// Function literals stand in conditions, indexes, maps and returns.
package main

import "fmt"

func main() {
	xs := []int{3, 1, 2}
	fmt.Println(xs[func() int { return len(xs) - 1 }()], map[string]func() int{"f": func() int { return 8 }}["f"]())
	if func(n int) bool { return n > 2 }(len(xs)) {
		fmt.Println("yes")
	}
	switch f := func() any { return "v" }; f().(type) {
	case string:
		fmt.Println("string")
	}
	for range func() []int { return xs[:2] }() {
		fmt.Print("x")
	}
	fmt.Println(func() func() string { return func() string { return "deep" } }()())
}
