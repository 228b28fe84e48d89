// Each turn of a three-clause loop has its own variable, so the closures print 0 1 2.
package main

import "fmt"

func main() {
	var fs []func()
	for i := 0; i < 3; i++ {
		fs = append(fs, func() { fmt.Println(i) })
	}
	for _, f := range fs {
		f()
	}
}
