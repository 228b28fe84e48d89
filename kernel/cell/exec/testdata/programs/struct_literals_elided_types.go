// Nested literals may leave out types, pointers included.
package main

import "fmt"

func main() {
	type pt struct{ x, y int }
	a := []pt{{1, 2}, {y: 3}, {}}
	b := []*pt{{4, 5}, nil}
	c := [2][]pt{{{1, 1}}, {{2, 2}, {3, 3}}}
	d := map[pt]*[]pt{{0, 0}: {{9, 9}}}
	e := [...][2]pt{1: {{x: 7}}}
	fmt.Println(a, *b[0], b[1] == nil, c, (*d[pt{}])[0], e)
}
