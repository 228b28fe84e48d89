// A slice serves as stack and as queue.
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
	var st []string
	push := func(s string) { st = append(st, s) }
	pop := func() string { s := st[len(st)-1]; st = st[:len(st)-1]; return s }
	push("a")
	push("b")
	x := pop()
	push("c")
	fmt.Println(x, st, len(st))
	fmt.Println(pop())
	fmt.Println(st)
	q := []int{1}
	for n := 0; len(q) > 0 && n < 6; n++ {
		h := q[0]
		q = append(q[1:], h*2, h*2+1)
		fmt.Print(h, " ")
	}
	fmt.Println(q)
	try("empty", func() { pop(); pop() })
}
