// Functions of the standard library are values like any other.
package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
)

func main() {
	fs := map[string]func(float64) float64{"sqrt": math.Sqrt, "abs": math.Abs, "floor": math.Floor}
	fmt.Println(fs["sqrt"](16), fs["abs"](-2.5), fs["floor"](-2.5))
	up := strings.ToUpper
	conv := []func(string) string{up, strings.TrimSpace, strconv.Quote}
	s := " go "
	for _, f := range conv {
		s = f(s)
	}
	fmt.Println(s)
	var b strings.Builder
	w := b.WriteString
	w("a")
	w("b")
	fmt.Println(b.String(), strings.Map(unicode.ToUpper, "xyz"))
}
