// A type with Len, Less and Swap is sorted through the interface.
package main

import (
	"fmt"
	"sort"
)

type byLen []string

func (b byLen) Len() int           { return len(b) }
func (b byLen) Less(i, j int) bool { return len(b[i]) < len(b[j]) }
func (b byLen) Swap(i, j int)      { b[i], b[j] = b[j], b[i] }

func main() {
	s := []string{"ccc", "a", "dddd", "bb", ""}
	sort.Sort(byLen(s))
	fmt.Printf("%q\n", s)
	sort.Sort(sort.Reverse(byLen(s)))
	fmt.Printf("%q %t\n", s, sort.IsSorted(byLen(s)))
	t := byLen{"xx", "b", "yy", "a"}
	sort.Stable(t)
	fmt.Println(t)
}
