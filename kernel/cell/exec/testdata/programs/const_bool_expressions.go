// Boolean constants work in constant expressions.
package main

import "fmt"

func main() {
	const debug = 1 > 2 || !false && 3 == 3.0
	type yes bool
	const y yes = true
	fmt.Println(debug, y, !y, y == true)
	if !debug {
		fmt.Println("never")
	}
}
