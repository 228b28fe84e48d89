// Variables of inner blocks are captured per entry of the block.
package main

import "fmt"

func main() {
	var fs []func() string
	for i := 0; i < 4; i++ {
		switch k := i * i; {
		case k%2 == 0:
			k++
			fs = append(fs, func() string { return fmt.Sprintf("even %d %d", i, k) })
		default:
			fs = append(fs, func() string { k--; return fmt.Sprintf("odd %d %d", i, k) })
		}
	}
	for _, f := range fs {
		fmt.Println(f())
	}
}
