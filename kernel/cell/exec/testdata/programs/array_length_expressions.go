// Array lengths are constant expressions and len is constant for arrays.
package main

import "fmt"

func main() {
	const n = 2
	var a [n * 2]int
	var b [len(a) + 1]string
	const k = len(b)
	var p *[7]int
	fmt.Println(len(a), len(b), k, len(p), len([...]int{9: 1}), len("const"))
	type grid [k][n]bool
	fmt.Println(len(grid{}), len(grid{}[0]))
}
