// A private panic type leaves a deep recursion and other panics pass.
package main

import "fmt"

type found struct{ path []int }

func search(n int, path []int) {
	if n == 0 {
		panic(found{path})
	}
	if n < 0 {
		return
	}
	for _, k := range []int{7, 5} {
		search(n-k, append(path[:len(path):len(path)], k))
	}
}
func solve(n int) (path []int, ok bool) {
	defer func() {
		if r := recover(); r != nil {
			f, is := r.(found)
			if !is {
				panic(r)
			}
			path, ok = f.path, true
		}
	}()
	search(n, nil)
	return
}

func main() {
	fmt.Println(solve(24))
	fmt.Println(solve(13))
	fmt.Println(solve(17))
}
