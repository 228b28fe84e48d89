// A loop variable declared before the loop is one variable for all closures.
package main

import "fmt"

func main() {
	var i int
	var fs []func() int
	for i = 0; i < 3; i++ {
		fs = append(fs, func() int { return i })
	}
	for _, f := range fs {
		fmt.Println(f())
	}
	i = 42
	fmt.Println(fs[0]())
}
