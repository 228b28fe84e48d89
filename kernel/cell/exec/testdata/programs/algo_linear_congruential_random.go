// A linear congruential generator is the same everywhere.
package main

import "fmt"

type lcg uint64

func (r *lcg) next() uint32 {
	*r = *r*6364136223846793005 + 1442695040888963407
	return uint32(*r >> 33)
}
func (r *lcg) float() float64 { return float64(r.next()) / (1 << 31) }
func (r *lcg) shuffle(xs []int) {
	for i := len(xs) - 1; i > 0; i-- {
		j := int(r.next()) % (i + 1)
		xs[i], xs[j] = xs[j], xs[i]
	}
}

func main() {
	r := lcg(42)
	fmt.Println(r.next(), r.next(), r.float())
	xs := []int{0, 1, 2, 3, 4, 5, 6, 7}
	r.shuffle(xs)
	fmt.Println(xs)
	in := 0
	for range 10000 {
		x, y := r.float(), r.float()
		if x*x+y*y < 1 {
			in++
		}
	}
	fmt.Println(in, uint64(r))
}
