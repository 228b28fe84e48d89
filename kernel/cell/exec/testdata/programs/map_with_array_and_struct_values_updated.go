// Values of a map are read, changed as copies and stored back.
package main

import "fmt"

func main() {
	type acc struct {
		n    int
		hist [3]int
	}
	m := map[string]acc{}
	for i, k := range []string{"a", "b", "a", "a", "b"} {
		v := m[k]
		v.n++
		v.hist[i%3] += i
		m[k] = v
	}
	fmt.Println(m)
	a := map[int][2]string{}
	v, ok := a[1]
	v[0] = "x"
	fmt.Println(a, ok, v[0])
}
