// Literals of unusual form have the values the language gives them.
package main

import "fmt"

func main() {
	fmt.Println(0x1p4, 0x.8p1, 0x1.fp0, 1e+2, 0b11<<2, 0o7_7, 1_0.5)
	fmt.Println("\a\b\f"[1], "\x41\u0042\U00000043\104", `\n`+"\"", len("\xe4\xb8\x96"), "\xe4\xb8\x96" == "世")
	fmt.Println('\'', '\\', '\x7f', '\377', '\u4e16')
	fmt.Println(.25e1, 1e-3, 010, 0x_F, 5.)
}
