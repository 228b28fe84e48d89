// The results are computed before the deferred calls run.
package main

import "fmt"

func f(log *[]string) int {
	note := func(s string) int { *log = append(*log, s); return len(*log) }
	defer note("deferred")
	return note("result")
}

func main() {
	var log []string
	n := f(&log)
	fmt.Println(n, log)
}
