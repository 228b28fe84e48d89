// Work done before a panic stays done.
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
	xs := []int{1, 2, 3}
	m := map[string]int{}
	try("partial", func() {
		for i := 0; ; i++ {
			m["n"] = i
			xs[i] *= 10
		}
	})
	fmt.Println(xs, m)
}
