// Unnamed and blank parameters are accepted.
package main

import "fmt"

func f(int, string) int                     { return 1 }
func g(_ int, _ ...string) (_ int, _ error) { return 2, nil }
func (empty) m(_ int) string                { return "m" }

type empty struct{}

func main() {
	n, err := g(1, "a", "b")
	fmt.Println(f(1, "x"), n, err, empty{}.m(3))
	h := func(_, b int) (int, int) { return b, b }
	_, x := h(1, 2)
	fmt.Println(x)
}
