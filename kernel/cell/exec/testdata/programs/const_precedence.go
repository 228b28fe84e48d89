// Operator precedence puts shifts with products and bit-or with sums.
package main

import "fmt"

func main() {
	a, b, c := 2, 3, 4
	fmt.Println(a+b*c, (a+b)*c, a<<b+c, a+b<<c, a|b&c, a^b|c, a*b%c, -a+b, ^a&b, a&^b<<1)
	fmt.Println(a+b == b+a && a < b || c < a, !(a > b) == (c > a))
	fmt.Println(a-b-c, a*b/c*a, 20/b/a)
}
