// Goto leaves nested loops and blocks and comes back.
package main

import "fmt"

func main() {
	n := 0
start:
	for i := 0; i < 3; i++ {
		for j := range 3 {
			n++
			if n == 4 {
				goto start
			}
			if n > 8 {
				goto end
			}
			_ = j
		}
	}
	fmt.Println("inner end", n)
	if n < 20 {
		n += 20
		goto start
	}
end:
	fmt.Println("end", n)
}
