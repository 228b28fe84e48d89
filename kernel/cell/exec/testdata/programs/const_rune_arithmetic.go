// Rune constants are numbers and mix with integers and floats.
package main

import "fmt"

func main() {
	const r = 'a'
	var b byte = r + 1
	var f float64 = r
	var i int = 'z' - 'a'
	fmt.Println(r, b, f, i, string(rune(r+2)), 'a' < 'b', '\n', '\x41', '\u00e9', '\'')
	fmt.Println('a'+1.0, 'é', '世')
}
