// A function whose only exit is a return inside an endless loop.
package main

import "fmt"

func firstPower(base, above int) (n, p int) {
	for p = 1; ; n++ {
		if p > above {
			return
		}
		p *= base
	}
}
func spin() (r []int) {
	for {
		for i := range 3 {
			if len(r) > 4 {
				return
			}
			if i == 1 {
				continue
			}
			r = append(r, i)
		}
	}
}

func main() {
	fmt.Println(firstPower(2, 1000))
	fmt.Println(firstPower(10, 0))
	fmt.Println(spin())
}
