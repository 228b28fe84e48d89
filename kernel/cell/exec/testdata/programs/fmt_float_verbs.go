// Floats print with all verbs, widths and precisions.
package main

import "fmt"

func main() {
	x := 1234.56789
	fmt.Printf("%f|%.2f|%8.1f|%-10.2f|%010.3f|%+.1f|%e|%.3e|%E|%g|%.3g|%G\n", x, x, x, x, x, x, x, x, x, x, x, x)
	fmt.Printf("%08.3f|%8.3f|%6.0f|%g|%g|%v|%v\n", -x, -3.14159, 2.5, 1e21, 1e-7, 100000000.0, float32(0.1))
	fmt.Printf("%5.1f%%|%t|%v|%g\n", 99.55, true, 1e6, 1e5)
	fmt.Printf("%.0f %.0f %.0f %.1f %.1f\n", 0.5, 1.5, 2.5, 0.25, 0.35)
}
