// A default at the top of a type switch is taken only if no case matches.
package main

import "fmt"

func main() {
	for _, v := range []any{1, "s", 2.0, nil} {
		switch v.(type) {
		default:
			fmt.Println("default")
		case int:
			fmt.Println("int")
		case string:
			if v == "s" {
				fmt.Println("leaving")
				break
			}
			fmt.Println("not reached")
		}
	}
}
