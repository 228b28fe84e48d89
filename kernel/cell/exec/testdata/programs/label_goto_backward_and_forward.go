// Goto jumps back for a loop and forward over code.
package main

import "fmt"

func main() {
	i := 0
again:
	if i < 3 {
		fmt.Println("i", i)
		i++
		goto again
	}
	if i == 3 {
		goto done
	}
	fmt.Println("skipped")
done:
	fmt.Println("done", i)
}
