// Key and value of a range over a slice are fresh in each turn.
package main

import "fmt"

func main() {
	var fs []func() string
	for i, s := range []string{"a", "b", "c"} {
		fs = append(fs, func() string { i += 10; return fmt.Sprintf("%d%s", i, s) })
	}
	for _, f := range fs {
		fmt.Println(f(), f())
	}
}
