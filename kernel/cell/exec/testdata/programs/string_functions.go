// The strings package works on ordinary values.
package main

import (
	"fmt"
	"strings"
)

func main() {
	fmt.Println(strings.Split("a,b,c", ","), strings.Join([]string{"x", "y"}, "-"), strings.Repeat("ab", 3))
	fmt.Println(strings.Fields("  a b  c "), strings.TrimSpace(" t "), strings.ToUpper("é"), strings.Title("x y"))
	fmt.Println(strings.Index("chicken", "ken"), strings.LastIndex("go go", "go"), strings.Count("cheese", "e"), strings.HasPrefix("abc", "ab"))
	fmt.Println(strings.Replace("aaaa", "a", "b", 2), strings.TrimLeft("xxay", "x"), strings.EqualFold("Go", "GO"))
	before, after, ok := strings.Cut("k=v=w", "=")
	fmt.Println(before, after, ok, len(strings.Split("", ",")), strings.SplitN("a,b,c", ",", 2))
}
