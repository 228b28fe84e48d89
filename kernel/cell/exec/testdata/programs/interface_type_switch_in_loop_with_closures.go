// Closures in type switch clauses keep the clause's variable.
package main

import "fmt"

func main() {
	var fs []func() string
	for i, v := range []any{1, "two", 3.5, nil, []int{4}} {
		switch x := v.(type) {
		case int:
			fs = append(fs, func() string { x++; return fmt.Sprintf("%d:%d", i, x) })
		case string:
			fs = append(fs, func() string { x += "!"; return x })
		case nil:
			continue
		default:
			fs = append(fs, func() string { return fmt.Sprintf("%d:%v", i, x) })
		}
	}
	for _, f := range fs {
		a := f()
		fmt.Println(a, f())
	}
}
