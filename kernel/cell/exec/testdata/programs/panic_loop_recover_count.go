// Each of many panics is recovered on its own.
package main

import "fmt"

func main() {
	n := 0
	for i := -2; i <= 2; i++ {
		func() {
			defer func() {
				if recover() != nil {
					n++
				}
			}()
			fmt.Println(12 / i)
		}()
	}
	fmt.Println("recovered", n)
}
