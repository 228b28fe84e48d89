// Fields and elements of results that are no variables are read.
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
	type t struct {
		a  [3]int
		in struct {
			s  string
			xs []int
		}
	}
	mk := func(n int) t {
		return t{a: [3]int{n, n + 1, n + 2}, in: struct {
			s  string
			xs []int
		}{"héy", []int{n}}}
	}
	arr := func() [4]string { return [4]string{1: "b", 3: "d"} }
	i := 2
	fmt.Println(mk(5).a[i], mk(1).in.s[i], mk(7).in.xs[0], arr()[i+1], len(arr()), mk(1).in.s[1:])
	m := map[string]t{"k": mk(9)}
	fmt.Println(m["k"].a[i], m["none"].a[i], m["k"].in.xs[0], [3]int{7, 8, 9}[i], "xyz"[i], t{}.in.s == "")
	i = 3
	try("array result", func() { fmt.Println(mk(1).a[i]) })
}
