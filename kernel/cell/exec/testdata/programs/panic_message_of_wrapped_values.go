// Recovered runtime errors print the same by every way of printing.
package main

import (
	"errors"
	"fmt"
)

func main() {
	defer func() {
		r := recover()
		err := r.(error)
		w := fmt.Errorf("calc: %w", err)
		fmt.Println(r, err.Error(), w)
		fmt.Printf("%v|%s|%q\n", r, err, errors.Unwrap(w))
	}()
	xs := []int{1, 2}
	i := len(xs)
	fmt.Println(xs[i])
}
