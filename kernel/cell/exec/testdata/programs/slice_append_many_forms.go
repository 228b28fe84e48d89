// Append takes elements, slices, nothing, and itself.
package main

import "fmt"

func main() {
	s := append([]int{}, 1)
	s = append(s, 2, 3)
	s = append(s, []int{4, 5}...)
	s = append(s, s...)
	s = append(s)
	s = append(s, s[:2]...)
	fmt.Println(s, len(s))
	var b []byte
	b = append(b, 'x')
	b = append(b, "yz"...)
	fmt.Println(string(b), append([]any{}, 1, "a", nil), append([][]int(nil), []int{1}, nil))
}
