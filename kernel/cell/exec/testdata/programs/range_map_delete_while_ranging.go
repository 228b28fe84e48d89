// Entries deleted during a range are not visited afterwards.
package main

import "fmt"

func main() {
	m := map[int]bool{}
	for i := range 100 {
		m[i] = true
	}
	visits := 0
	for k := range m {
		visits++
		for j := range 100 {
			if j != k {
				delete(m, j)
			}
		}
	}
	fmt.Println(visits, len(m))
	for k := range m {
		delete(m, k)
	}
	fmt.Println(len(m))
	for i := range 10 {
		m[i] = i%2 == 0
	}
	for k, v := range m {
		if v {
			delete(m, k)
		}
	}
	fmt.Println(m)
}
