// An uncomparable dynamic key panics on write, read and delete.
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
	m := map[any]int{1: 1, "a": 2, [2]int{1, 2}: 3}
	fmt.Println(m[1], m["a"], m[[2]int{1, 2}])
	try("write", func() { m[[]int{1}] = 1 })
	try("read", func() { fmt.Println(m[map[string]int{}]) })
	try("delete", func() { delete(m, func() {}) })
	try("nested", func() { m[[1]any{[]string{}}] = 1 })
	fmt.Println(len(m))
}
