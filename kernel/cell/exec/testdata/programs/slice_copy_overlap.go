// Copy handles overlap and returns the number of elements.
package main

import "fmt"

func main() {
	a := []int{1, 2, 3, 4, 5}
	n := copy(a[1:], a)
	fmt.Println(n, a)
	b := []int{1, 2, 3, 4, 5}
	n = copy(b, b[2:])
	fmt.Println(n, b, copy(b, []int(nil)), copy([]int(nil), b))
	bs := make([]byte, 3)
	n = copy(bs, "héllo")
	fmt.Println(n, bs)
}
