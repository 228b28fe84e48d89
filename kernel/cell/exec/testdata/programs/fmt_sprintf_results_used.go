// Text made by Sprintf is an ordinary string.
package main

import (
	"fmt"
	"strings"
)

func main() {
	s := fmt.Sprintf("%03d", 7)
	t := fmt.Sprintf("%s-%s", s, strings.Repeat(s, 2))
	fmt.Println(t, len(t), s+t == "007"+t, fmt.Sprintf("%v", s) == s)
	parts := make([]string, 0)
	for i := range 3 {
		parts = append(parts, fmt.Sprintf("%c%d", 'a'+i, i))
	}
	fmt.Println(strings.Join(parts, ","), fmt.Sprintf("%6.2f|%-8s|", 3.14159, "ab"))
}
