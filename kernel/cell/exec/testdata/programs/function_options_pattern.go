// Options as functions change a struct of settings.
package main

import "fmt"

type conf struct {
	name string
	n    int
	tags []string
}
type option func(*conf)

func withN(n int) option      { return func(c *conf) { c.n = n } }
func tag(ts ...string) option { return func(c *conf) { c.tags = append(c.tags, ts...) } }
func build(name string, opts ...option) conf {
	c := conf{name: name, n: 1}
	for _, o := range opts {
		o(&c)
	}
	return c
}

func main() {
	fmt.Println(build("a"))
	fmt.Println(build("b", withN(5), tag("x", "y"), withN(6), tag("z")))
}
