// Polynomials as slices of coefficients.
package main

import "fmt"

type poly []float64

func (p poly) eval(x float64) (y float64) {
	for i := len(p) - 1; i >= 0; i-- {
		y = y*x + p[i]
	}
	return
}
func (p poly) mul(q poly) poly {
	r := make(poly, len(p)+len(q)-1)
	for i, a := range p {
		for j, b := range q {
			r[i+j] += a * b
		}
	}
	return r
}
func (p poly) diff() poly {
	var d poly
	for i, a := range p {
		if i > 0 {
			d = append(d, a*float64(i))
		}
	}
	return d
}

func main() {
	p := poly{-6, 1, 1}
	q := poly{1, 2}
	fmt.Println(p.mul(q), p.eval(2), p.diff(), p.mul(q).diff().eval(0.5), poly{}.eval(3), len(poly(nil).diff()))
}
