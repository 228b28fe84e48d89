// Type arguments are inferred from the arguments or given.
package main

import "fmt"

func first[T any](xs ...T) T                 { return xs[0] }
func conv[To, From int | float64](x From) To { return To(x) }
func show[T any](x T) string                 { return fmt.Sprintf("%T:%v", x, x) }

func main() {
	fmt.Println(first(1, 2), first("a"), first[any](1, "b"), first[float64](1, 2.5))
	fmt.Println(conv[int](2.9), conv[float64](3)/2, conv[float64, int](7)/2)
	fmt.Println(show(1), show('x'), show([]string{"s"}), show[error](nil), show(func(int) {} == nil))
}
