// A change to the loop variable in the body is carried to the copy of the next turn.
package main

import "fmt"

func main() {
	var fs []func() int
	for i := 0; i < 6; i++ {
		fs = append(fs, func() int { return i })
		i++
	}
	for _, f := range fs {
		fmt.Println(f())
	}
}
