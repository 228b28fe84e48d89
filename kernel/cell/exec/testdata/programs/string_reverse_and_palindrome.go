// Reversing by runes keeps multi-byte letters whole.
package main

import "fmt"

func reverse(s string) string {
	r := []rune(s)
	for i, j := 0, len(r)-1; i < j; i, j = i+1, j-1 {
		r[i], r[j] = r[j], r[i]
	}
	return string(r)
}

func main() {
	for _, s := range []string{"", "a", "añb", "level", "日本語"} {
		fmt.Println(reverse(s), reverse(s) == s)
	}
}
