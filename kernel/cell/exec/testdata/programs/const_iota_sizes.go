// Shifted iota gives the powers of 1024.
package main

import "fmt"

func main() {
	const (
		_  = iota
		kb = 1 << (10 * iota)
		mb
		gb
		tb
	)
	fmt.Println(kb, mb, gb, tb, tb/gb)
}
