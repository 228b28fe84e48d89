// Function fields may refer to the struct they sit in.
package main

import "fmt"

func main() {
	type machine struct {
		state string
		step  func(string) string
		log   []string
	}
	m := &machine{state: "idle"}
	m.step = func(ev string) string {
		m.log = append(m.log, m.state+">"+ev)
		m.state = ev
		return m.state
	}
	m.step("run")
	m.step("stop")
	fmt.Println(m.state, m.log)
	n := *m
	n.step("copy")
	fmt.Println(m.state, n.state)
}
