// Empty structs, blocks, statements and functions do nothing.
package main

import "fmt"

type e struct{}

func nothing() {}
func (e) m()   {}

func main() {
	nothing()
	{
	}

	if true {
	} else {
	}
	for range 3 {
	}
	e{}.m()
	var a [0]int
	s := map[string]struct{}{"a": {}}
	_, ok := s["a"]
	fmt.Println(len(a), e{}, e{} == e{}, ok, s, [2]e{}, []e{{}, {}})
}
