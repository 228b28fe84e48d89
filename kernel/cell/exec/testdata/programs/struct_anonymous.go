// Anonymous structs have identical types if their fields are.
package main

import "fmt"

func main() {
	p := struct{ X, Y int }{1, 2}
	q := struct{ X, Y int }{Y: 2, X: 1}
	fmt.Println(p == q)
	q = p
	q.X++
	list := []struct {
		name string
		n    int
	}{{"a", 1}, {"b", 2}}
	for _, e := range list {
		fmt.Print(e.name, e.n, " ")
	}
	var cfg struct {
		net struct {
			host  string
			ports []int
		}
		debug bool
	}
	cfg.net.host = "h"
	cfg.net.ports = append(cfg.net.ports, 80)
	fmt.Printf("%v %+v %T\n", q, cfg, p)
}
