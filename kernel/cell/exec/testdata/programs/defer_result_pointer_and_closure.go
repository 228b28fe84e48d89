// A deferred closure sees results set by a return with values.
package main

import (
	"errors"
	"fmt"
)

func f() (s []int, err error) {
	defer func() {
		if err != nil {
			s = append(s, -1)
			err = fmt.Errorf("late: %w", err)
		}
	}()
	s = []int{1}
	if len(s) == 1 {
		return []int{2, 3}, errors.New("early")
	}
	return
}
func g() (n int) {
	p := &n
	defer func() { *p += 100 }()
	return 5
}

func main() {
	fmt.Println(f())
	fmt.Println(g())
}
