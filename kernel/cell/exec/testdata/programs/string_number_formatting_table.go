// A table of numbers is lined up by widths.
package main

import (
	"fmt"
	"strings"
)

func main() {
	rows := []struct {
		name string
		r, i float64
		n    int
	}{{"R1", 4700, 0.0015, 1}, {"R22", 10.5, 0.25, 12}, {"long", 1e6, 1e-9, 123}}
	for _, r := range rows {
		fmt.Printf("%-5s|%10.2f|%-12g|%05d|%+.1e|%x\n", r.name, r.r, r.i, r.n, r.r*r.i, r.n)
	}
	fmt.Printf("%s\n%6.2f%%\n", strings.Repeat("=", 12), 12.345)
}
