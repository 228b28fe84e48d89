// A union constraint allows the operators all its types have.
package main

import "fmt"

type number interface {
	~int | ~int8 | ~uint8 | ~float64
}

func sum[T number](xs ...T) (t T) {
	for _, x := range xs {
		t += x
	}
	return
}
func avg[T number](xs ...T) T { return sum(xs...) / T(len(xs)) }

type volt float64

func main() {
	fmt.Println(sum(1, 2, 3), sum(1.5, 2), sum(volt(1), 2.5), sum[uint8](200, 100), sum[int8](100, 100), sum[int]())
	fmt.Println(avg(1, 2, 4), avg(1.0, 2, 4), avg(volt(1), 2))
	fmt.Printf("%T\n", avg(volt(3)))
}
