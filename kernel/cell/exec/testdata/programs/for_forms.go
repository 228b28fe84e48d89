// All forms of the for statement.
package main

import "fmt"

func main() {
	for i, j := 0, 10; i < j; i, j = i+1, j-2 {
		fmt.Print(i, ",", j, " ")
	}
	n := 1
	for n < 100 {
		n *= 3
	}
	for {
		n--
		if n%10 == 0 {
			break
		}
	}
	for i := 3; i > 0; {
		i--
		fmt.Print(i)
	}
	k := 0
	for ; k < 5; k += 2 {
	}
	for k++; k < 8; k++ {
	}
	fmt.Println("", n, k)
}
