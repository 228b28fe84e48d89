// Break with a label leaves a switch from inside a loop and a loop from inside a switch.
package main

import "fmt"

func main() {
choose:
	switch x := 1; x {
	case 1:
		for i := range 10 {
			if i == 2 {
				break choose
			}
			fmt.Println(i)
		}
		fmt.Println("not reached")
	}
loop:
	for i := 0; ; i++ {
		switch any(i).(type) {
		case int:
			if i > 2 {
				break loop
			}
			break
		}
		fmt.Println("turn", i)
	}
	fmt.Println("end")
}
