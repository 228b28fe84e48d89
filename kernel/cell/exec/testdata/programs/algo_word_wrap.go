// Words are wrapped and justified to a width.
package main

import (
	"fmt"
	"strings"
)

func main() {
	wrap := func(s string, w int) (lines []string) {
		line := ""
		for _, word := range strings.Fields(s) {
			if line != "" && len(line)+1+len(word) > w {
				lines = append(lines, line)
				line = ""
			}
			if line != "" {
				line += " "
			}
			line += word
		}
		return append(lines, line)
	}
	for _, l := range wrap("the quick brown fox jumps over the lazy dog again and again", 16) {
		fmt.Printf("|%-16s|%16s|\n", l, strings.ToUpper(l))
	}
}
