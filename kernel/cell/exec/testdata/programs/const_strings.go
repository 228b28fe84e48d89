// String constants concatenate and compare at compile time.
package main

import "fmt"

func main() {
	const a = "go" + "lang"
	const b = a < "gopher"
	const n = len(a)
	var arr [n]byte
	fmt.Println(a, b, n, len(arr), a[1], a[:2], `raw\n`+"\t|")
	const multi = `line 1
line 2`
	fmt.Println(multi, len(multi))
}
