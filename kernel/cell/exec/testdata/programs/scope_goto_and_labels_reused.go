// The same label name may be used in different functions.
package main

import "fmt"

func main() {
	f := func() (n int) {
	loop:
		for {
			n++
			if n > 3 {
				break loop
			}
		}
		return
	}
	g := func() (n int) {
	loop:
		n += 2
		if n < 5 {
			goto loop
		}
		return
	}
	loop := f() + g()
loop:
	for i := range 5 {
		loop += i
		if i == 2 {
			continue loop
		}
		if loop > 15 {
			break loop
		}
	}
	fmt.Println(loop)
}
