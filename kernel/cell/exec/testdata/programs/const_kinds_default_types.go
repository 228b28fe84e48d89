// An untyped constant takes the default type of its kind when it meets an interface.
package main

import "fmt"

func main() {
	for _, v := range []any{1, 'a', 1.0, "s", true, 1 << 3, 'a' + 1, 1 + 2.0, 'a' * 1.0, len("abc"), 2 > 1} {
		fmt.Printf("%T %v\n", v, v)
	}
}
