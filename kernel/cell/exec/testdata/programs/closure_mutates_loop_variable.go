// A closure called within its own turn changes the variable the loop tests.
package main

import "fmt"

func main() {
	for i := 0; i < 10; i++ {
		skip := func() { i += 2 }
		fmt.Println(i)
		skip()
	}
}
