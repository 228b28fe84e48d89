// A failed assertion to a concrete type names both types.
package main

import "fmt"

func try(name string, f func()) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Println(name+":", r)
		}
	}()
	f()
}

func main() {
	var v any = "text"
	try("string as int", func() { fmt.Println(v.(int)) })
	v = 3
	try("int as float64", func() { fmt.Println(v.(float64)) })
	try("int as []int", func() { fmt.Println(v.([]int)) })
	try("int as map", func() { fmt.Println(v.(map[string]bool)) })
	try("int as func", func() { fmt.Println(v.(func(int) string)) })
	v = nil
	try("nil as int", func() { fmt.Println(v.(int)) })
	v = []string{"a"}
	try("slice as string", func() { fmt.Println(v.(string)) })
}
