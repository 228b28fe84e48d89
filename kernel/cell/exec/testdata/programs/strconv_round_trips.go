// Numbers go to text and back in several bases.
package main

import (
	"fmt"
	"strconv"
)

func main() {
	n, err := strconv.ParseInt("-ff", 16, 64)
	fmt.Println(n, err, strconv.FormatInt(-255, 2), strconv.FormatInt(35, 36), strconv.Quote("a\t\"é\""))
	f, _ := strconv.ParseFloat("1e-7", 64)
	fmt.Println(f, strconv.FormatFloat(f, 'f', -1, 64), strconv.FormatFloat(1234.5678, 'e', 2, 64))
	u, _ := strconv.Unquote(`"x\ny"`)
	b, _ := strconv.ParseBool("T")
	v, e := strconv.ParseInt("0x1F", 0, 0)
	fmt.Println(u, b, v, e)
}
