// A range over an integer counts from zero and takes the integer's type.
package main

import "fmt"

func main() {
	for i := range 3 {
		fmt.Print(i, " ")
	}
	n := int8(4)
	for i := range n {
		fmt.Printf("%T%d ", i, i)
		n = 0
	}
	fmt.Println(n)
	for range 2 {
		fmt.Print("x")
	}
	for i := range -3 {
		fmt.Println("never", i)
	}
	const c = 2
	for i := range uint16(c) {
		fmt.Printf(" %T", i)
	}
	var j int
	for j = range 5 {
	}
	fmt.Println(j)
}
