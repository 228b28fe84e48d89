// Method values are stored in maps, structs and slices like functions.
package main

import (
	"fmt"
	"strconv"
	"strings"
)

type calc struct{ acc float64 }

func (c *calc) add(x float64) { c.acc += x }
func (c *calc) mul(x float64) { c.acc *= x }
func (c calc) show() string   { return fmt.Sprintf("%.2f", c.acc) }

func main() {
	c := &calc{1}
	ops := map[string]func(float64){"+": c.add, "*": c.mul}
	st := struct{ show func() string }{c.show}
	for _, s := range strings.Fields("+2 *3 +0.5") {
		x, _ := strconv.ParseFloat(s[1:], 64)
		ops[s[:1]](x)
	}
	fmt.Println(c.show(), st.show(), ops["-"] == nil, ops["+"] != nil)
}
