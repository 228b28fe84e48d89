// A panic while arguments are evaluated keeps the call from happening.
package main

import "fmt"

func try(name string, f func()) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Println(name+":", r)
		}
	}()
	f()
}

func main() {
	note := func(s string) string { fmt.Println("eval", s); return s }
	boom := func() string { panic("boom") }
	use := func(a, b, c string) { fmt.Println("called", a, b, c) }
	try("arguments", func() { use(note("a"), boom(), note("c")) })
}
