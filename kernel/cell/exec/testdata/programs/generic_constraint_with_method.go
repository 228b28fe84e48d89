// A constraint may ask for methods and for an underlying type at once.
package main

import "fmt"

type named interface {
	~int | ~string
	label() string
}
type num int

func (n num) label() string { return fmt.Sprintf("num %d", int(n)) }

type str string

func (s str) label() string { return "str " + string(s) }
func labels[T named](xs []T) (out []string) {
	var z T
	for _, x := range xs {
		if x != z {
			out = append(out, x.label())
		}
	}
	return
}

func main() {
	fmt.Println(labels([]num{0, 1, 2}), labels([]str{"a", "", "b"}))
}
