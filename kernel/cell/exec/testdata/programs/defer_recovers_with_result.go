// A function that recovers returns its named result as the deferred function left it.
package main

import "fmt"

func div(a, b int) (q int, err error) {
	defer func() {
		if r := recover(); r != nil {
			q, err = -1, fmt.Errorf("caught: %v", r)
		}
	}()
	return a / b, nil
}

func main() {
	fmt.Println(div(7, 2))
	fmt.Println(div(7, 0))
}
