// Types and functions can be shadowed by locals.
package main

import "fmt"

type num int

func f() string { return "outer f" }

func main() {
	fmt.Println(f(), num(3))
	f := func() string { return "inner f" }
	type num string
	fmt.Println(f(), num("text"))
	{
		type num struct{ x int }
		f := num{1}
		fmt.Println(f)
		{
			num := f.x + 1
			fmt.Println(num)
		}
	}
	fmt.Println(f())
}
