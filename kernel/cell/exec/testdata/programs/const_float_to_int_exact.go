// A float constant with a whole value may become an integer.
package main

import "fmt"

func main() {
	const f = 6.0
	var i int = f / 2
	var u uint8 = 2.55e2
	a := [2 + 1.0]int{}
	fmt.Println(i, u, len(a), 1e3 == 1000, int64(1e18))
	const s = 5.0 << 3
	fmt.Println(s, 1<<3.0)
}
