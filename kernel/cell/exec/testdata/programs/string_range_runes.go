// Ranging over a string gives byte offsets and runes.
package main

import (
	"fmt"
	"unicode/utf8"
)

func main() {
	for i, r := range "aé世😀" {
		fmt.Printf("%d:%c:%U:%d ", i, r, r, r)
	}
	fmt.Println()
	for i := range "é世" {
		fmt.Println(i)
	}
	n := 0
	for range "héllo" {
		n++
	}
	fmt.Println(n, len("héllo"), utf8.RuneCountInString("héllo"))
}
