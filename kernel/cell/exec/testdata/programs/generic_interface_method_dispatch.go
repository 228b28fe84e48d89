// Generic code calls the methods of whatever type it is given.
package main

import "fmt"

type shape interface{ area() float64 }
type sq float64

func (s sq) area() float64 { return float64(s * s) }

type rect struct{ w, h float64 }

func (r *rect) area() float64 { return r.w * r.h }
func total[T shape](xs ...T) (t float64) {
	for _, x := range xs {
		t += x.area()
	}
	return
}
func largest[T shape](xs []T) (best T) {
	for i, x := range xs {
		if i == 0 || x.area() > best.area() {
			best = x
		}
	}
	return
}

func main() {
	fmt.Println(total(sq(1), sq(2)), total(&rect{2, 3}), total[shape](sq(3), &rect{1, 1}), total[sq]())
	fmt.Println(largest([]sq{1, 3, 2}), *largest([]*rect{{1, 1}, {2, 2}}), largest([]shape{sq(5), &rect{1, 1}}))
	f := shape.area
	fmt.Println(f(sq(4)))
}
