// Tasks are put in order by depth first search, a cycle is reported.
package main

import "fmt"

type graph map[string][]string

func (g graph) visit(n string, state map[string]int, out *[]string) error {
	if state[n] == 1 {
		return fmt.Errorf("cycle at %s", n)
	}
	if state[n] == 2 {
		return nil
	}
	state[n] = 1
	for _, d := range g[n] {
		if err := g.visit(d, state, out); err != nil {
			return err
		}
	}
	state[n] = 2
	*out = append(*out, n)
	return nil
}

func main() {
	for _, g := range []graph{{"app": {"lib", "log"}, "lib": {"core"}, "log": {"core"}}, {"app": {"b"}, "b": {"c"}, "c": {"b"}}} {
		var out []string
		err := g.visit("app", map[string]int{}, &out)
		fmt.Println(out, err)
	}
}
