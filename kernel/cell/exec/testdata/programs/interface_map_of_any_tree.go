// A tree of maps and slices of any is walked by type switches.
package main

import (
	"fmt"
	"sort"
)

func main() {
	var walk func(v any, depth int) int
	walk = func(v any, depth int) (n int) {
		switch x := v.(type) {
		case map[string]any:
			keys := []string{}
			for k := range x {
				keys = append(keys, k)
			}
			sort.Strings(keys)
			for _, k := range keys {
				fmt.Printf("%*s%s\n", depth*2, "", k)
				n += walk(x[k], depth+1)
			}
		case []any:
			for _, e := range x {
				n += walk(e, depth)
			}
		case nil:
		default:
			fmt.Printf("%*s%v\n", depth*2, "", x)
			return 1
		}
		return
	}
	fmt.Println(walk(map[string]any{"b": []any{1, "two", []any{3.5}}, "a": map[string]any{"c": true, "d": nil}}, 0))
}
