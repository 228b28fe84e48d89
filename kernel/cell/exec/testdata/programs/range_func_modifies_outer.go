// The body changes variables of the enclosing function while the iterator runs.
package main

import "fmt"

func main() {
	var log []int
	n := 0
	seq := func(yield func(int) bool) {
		for i := 0; n < 5; i++ {
			log = append(log, n)
			if !yield(i) {
				break
			}
		}
	}
	for i := range seq {
		n += i
	}
	fmt.Println(n, log)
}
