// A type parameter's value is examined through an interface.
package main

import "fmt"

func describe[T any](x T) string {
	switch v := any(x).(type) {
	case int:
		return fmt.Sprintf("int %d", v+1)
	case []T:
		return "slice of itself"
	case fmt.Stringer:
		return "stringer " + v.String()
	case string:
		return v + "!"
	}
	if _, ok := any(&x).(*float64); ok {
		return "float"
	}
	return fmt.Sprintf("%T", x)
}

type s struct{}

func (s) String() string { return "S" }

func main() {
	fmt.Println(describe(1), describe("a"), describe(s{}), describe(2.5), describe([]int{}), describe(true))
}
