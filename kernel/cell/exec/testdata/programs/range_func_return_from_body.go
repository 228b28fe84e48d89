// A return inside the body leaves the enclosing function with its value.
package main

import "fmt"

func seq(yield func(int) bool) {
	defer fmt.Println("seq cleaned up")
	for i := 0; yield(i); i++ {
	}
}
func find(ok func(int) bool) (n int, s string) {
	for i := range seq {
		if ok(i) {
			return i, "found"
		}
	}
	return -1, "none"
}
func named(limit int) (n int) {
	for i := range seq {
		n += i
		if n > limit {
			return
		}
	}
	return
}

func main() {
	fmt.Println(find(func(i int) bool { return i*i > 30 }))
	fmt.Println(named(20))
}
