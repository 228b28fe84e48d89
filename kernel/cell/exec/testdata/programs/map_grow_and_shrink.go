// A large map keeps every entry through growth and deletion.
package main

import "fmt"

func main() {
	m := map[int]int{}
	for i := range 5000 {
		m[i*7] = i
	}
	for i := 0; i < 5000; i += 2 {
		delete(m, i*7)
	}
	sum, bad := 0, 0
	for k, v := range m {
		sum += v
		if k != v*7 || v%2 == 0 {
			bad++
		}
	}
	_, ok := m[14]
	fmt.Println(len(m), sum, bad, ok, m[7])
}
