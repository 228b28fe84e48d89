// A builder gathers strings, bytes and runes.
package main

import (
	"fmt"
	"strings"
)

func main() {
	var b strings.Builder
	for i := 3; i > 0; i-- {
		fmt.Fprintf(&b, "%d,", i)
	}
	b.WriteByte('>')
	b.WriteRune('世')
	n, err := b.WriteString("end")
	fmt.Println(b.String(), b.Len(), n, err)
	b.Reset()
	fmt.Println(b.Len(), b.String() == "")
}
