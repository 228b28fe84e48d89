// A verb is applied to each element of a slice, array, struct and map.
package main

import "fmt"

func main() {
	fmt.Printf("%d %5.1f %x %q %t\n", []int{1, 2}, []float64{1, 2.25}, []string{"ab", "c"}, []rune("hi"), [2]bool{true})
	fmt.Printf("%03d %v %s\n", [][]int{{1}, {2, 3}}, []error{nil}, []any{"a", "b"})
	fmt.Printf("%d %q\n", struct{ A, B int }{1, 2}, map[string]string{"k": "v"})
	fmt.Printf("%x %X %d\n", []byte("\x01\xab"), [2]byte{1, 2}, []byte("ab"))
}
