// Tags may be strings, floats, arrays, structs, interfaces and runes.
package main

import "fmt"

func main() {
	type p struct{ x, y int }
	switch (p{1, 2}) {
	case p{2, 1}:
		fmt.Println("no")
	case p{1, 2}:
		fmt.Println("struct")
	}
	switch [2]string{"a", "b"} {
	case [2]string{"a", "b"}:
		fmt.Println("array")
	}
	var v any = 3
	switch v {
	case "3":
		fmt.Println("string")
	case 3.0:
		fmt.Println("float")
	case nil:
		fmt.Println("nil")
	case 3:
		fmt.Println("int")
	}
	x := 2.5
	switch x * 2 {
	case 5:
		fmt.Println("float five")
	}
	switch 'b' {
	case 'a', 'b', 'c':
		fmt.Println("letter")
	}
}
