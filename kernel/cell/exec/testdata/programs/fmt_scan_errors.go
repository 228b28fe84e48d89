// Scanning text that does not fit gives errors and partial results.
package main

import "fmt"

func main() {
	var a, b int
	n, err := fmt.Sscanf("12 ab", "%d %d", &a, &b)
	fmt.Println(n, err != nil, a, b)
	var s string
	var f float64
	n, err = fmt.Sscanf("v=2.5;x", "v=%g;%s", &f, &s)
	fmt.Println(n, err, f, s)
	var x, y int
	n, err = fmt.Sscanf("ff:10", "%x:%o", &x, &y)
	fmt.Println(n, err, x, y)
}
