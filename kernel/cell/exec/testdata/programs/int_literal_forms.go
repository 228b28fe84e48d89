// Integer and float literals may be written in every base and with underscores.
package main

import "fmt"

func main() {
	fmt.Println(0b1011, 0o17, 017, 0xFF, 0xaB, 1_000_000, 0x_ff_ff, 0b_1)
	fmt.Println(1e3, .5, 1., 0x1p-2, 0x1.8p3, 1_0.2_5e1, 0x.8p1)
	fmt.Println('\a', '\\', '\101', '\xff', '\u0041', '\U0001F600')
}
