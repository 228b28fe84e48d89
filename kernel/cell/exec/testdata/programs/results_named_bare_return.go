// A bare return gives back the named results as they are.
package main

import "fmt"

func split(n int) (tens, ones int) {
	tens = n / 10
	ones = n - tens*10
	return
}
func find(xs []string, w string) (i int, ok bool) {
	for i = range xs {
		if xs[i] == w {
			ok = true
			return
		}
	}
	return -1, false
}
func swap(a, b string) (b2, a2 string) { b2, a2 = b, a; return a2, b2 }

func main() {
	fmt.Println(split(42))
	fmt.Println(find([]string{"a", "b"}, "b"))
	fmt.Println(find(nil, "b"))
	fmt.Println(swap("x", "y"))
}
