// Structs are equal if all fields are.
package main

import (
	"fmt"
	"math"
)

func try(name string, f func()) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Println(name+":", r)
		}
	}()
	f()
}

func main() {
	type p struct {
		x int
		s string
		f float64
	}
	type w struct {
		p
		i any
		a [1]p
	}
	a, b := p{1, "a", 0.5}, p{1, "a", 0.5}
	fmt.Println(a == b, a != p{x: 1, s: "a"}, p{f: math.NaN()} == p{f: math.NaN()})
	fmt.Println(w{a, 1, [1]p{b}} == w{b, 1, [1]p{a}}, w{i: 1} == w{i: int8(1)}, struct{}{} == struct{}{})
	try("uncomparable field", func() { fmt.Println(w{i: []int{}} == w{i: []int{}}) })
	fmt.Println(w{p: a, i: []int{}} == w{p: p{}, i: []int{}})
}
