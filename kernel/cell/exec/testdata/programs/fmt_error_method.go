// An Error method takes part in printing and wins over String.
package main

import "fmt"

type e struct{ code int }

func (x e) Error() string  { return fmt.Sprintf("E%d", x.code) }
func (x e) String() string { return "not this" }

func main() {
	fmt.Println(e{1}, []error{e{2}, nil}, []e{{3}}, map[string]error{"k": e{4}})
	fmt.Printf("%v %s %q %d %x\n", e{5}, e{6}, e{7}, e{8}, e{9})
	var err error = e{10}
	fmt.Printf("%v|%6v|%-6v|%T\n", err, err, err, err)
}
