// Methods may be declared on slice, map, function and basic types.
package main

import "fmt"

type nums []int

func (n nums) sum() (t int) {
	for _, x := range n {
		t += x
	}
	return
}
func (n *nums) push(x int) { *n = append(*n, x) }

type set map[string]bool

func (s set) add(k string) set { s[k] = true; return s }

type pred func(int) bool

func (p pred) not() pred { return func(x int) bool { return !p(x) } }

type deg float64

func (d deg) rad() float64 { return float64(d) / 180 }

func main() {
	var n nums
	n.push(4)
	n.push(5)
	fmt.Println(n.sum(), n, len(set{}.add("a").add("b").add("a")))
	even := pred(func(x int) bool { return x%2 == 0 })
	fmt.Println(even(3), even.not()(3), even.not().not()(4), deg(90).rad())
}
