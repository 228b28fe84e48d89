// Scanning from strings stores through pointers.
package main

import "fmt"

func main() {
	var a int
	var b string
	var c float64
	n, err := fmt.Sscanf("7 seven 7.5", "%d %s %f", &a, &b, &c)
	fmt.Println(n, err, a, b, c)
	n, err = fmt.Sscan("8 eight", &a, &b)
	fmt.Println(n, err, a, b)
	n, err = fmt.Sscan("x", &a)
	fmt.Println(n, err, a)
}
