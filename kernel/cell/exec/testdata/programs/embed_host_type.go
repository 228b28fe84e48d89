// A type of a library may be embedded and its methods are promoted.
package main

import (
	"fmt"
	"sort"
	"strings"
)

type logger struct {
	strings.Builder
	n int
}

func (l *logger) add(s string) { l.n++; l.WriteString(fmt.Sprintf("%d:%s;", l.n, s)) }

type sorted struct{ sort.IntSlice }

func main() {
	var l logger
	l.add("a")
	l.add("b")
	l.WriteByte('!')
	fmt.Println(l.String(), l.Len(), l.n)
	s := sorted{sort.IntSlice{3, 1, 2}}
	s.Sort()
	fmt.Println(s.IntSlice, s.Len(), s.Less(0, 1))
	var st fmt.Stringer = &l
	fmt.Println(st)
}
