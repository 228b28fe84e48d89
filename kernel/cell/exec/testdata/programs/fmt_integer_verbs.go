// Integers print in all bases with width and flags.
package main

import "fmt"

func main() {
	n := 42
	fmt.Printf("%d|%5d|%-5d|%05d|%+d|% d|%x|%X|%o|%b|%c|%q|%U|%#x|%#o\n", n, n, n, n, n, n, n, n, n, n, n, n, n, n, n)
	fmt.Printf("%d|%6d|%-6d|%06d|%x|%b|% x\n", -n, -n, -n, -n, -n, -n, -n)
	fmt.Printf("%3d|%d|%v|%8.3d|%x\n", 12345, uint8(200), int64(-9), 7, []int{10, 11})
	fmt.Printf("%c%c %U %#U\n", 'h', 0x4E16, '⌘', '⌘')
}
