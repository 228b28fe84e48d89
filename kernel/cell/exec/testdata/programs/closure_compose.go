// Composing functions keeps the order of application.
package main

import "fmt"

func compose(fs ...func(int) int) func(int) int {
	return func(x int) int {
		for i := len(fs) - 1; i >= 0; i-- {
			x = fs[i](x)
		}
		return x
	}
}

func main() {
	inc := func(x int) int { return x + 1 }
	dbl := func(x int) int { return x * 2 }
	fmt.Println(compose(inc, dbl)(5), compose(dbl, inc)(5), compose()(5), compose(inc, inc, dbl, dbl)(1))
}
