// Changing the variable of a range over an integer does not change the count.
package main

import "fmt"

func main() {
	for i := range 4 {
		fmt.Print(i, "->")
		i += 10
		fmt.Print(i, " ")
	}
	fmt.Println()
	var k uint8
	for k = range 3 {
		k *= 2
		fmt.Print(k, " ")
	}
	fmt.Println(k)
}
