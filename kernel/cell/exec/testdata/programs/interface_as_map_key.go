// Keys of a map of interfaces are told apart by type and value.
package main

import "fmt"

func main() {
	m := map[any]string{1: "int", int64(1): "int64", 1.0: "float", "1": "string", true: "bool", [2]int{1, 2}: "array", struct{ a string }{"x"}: "struct", nil: "nil"}
	fmt.Println(m[1], m[int64(1)], m[1.0], m["1"], m[true], m[[2]int{1, 2}], m[struct{ a string }{"x"}], m[nil], m[uint(1)] == "", len(m))
	var k any = 1
	m[k] += "!"
	fmt.Println(m[1])
}
