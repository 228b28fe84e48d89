// Closures, labels and deferred calls work together in one loop.
package main

import "fmt"

func main() {
	f := func() (out []string) {
	rows:
		for i := range 3 {
			for j := range 3 {
				if j > i {
					continue rows
				}
				if i == 2 && j == 1 {
					break rows
				}
				defer func() { out = append(out, fmt.Sprintf("%d%d", i, j)) }()
			}
		}
		return []string{"start"}
	}
	fmt.Println(f())
}
