// Pointer methods that return the receiver chain.
package main

import "fmt"

type list struct{ items []string }

func (l *list) add(s string) *list { l.items = append(l.items, s); return l }
func (l list) with(s string) list  { l.items = append(l.items[:len(l.items):len(l.items)], s); return l }

func main() {
	l := (&list{}).add("a").add("b")
	m := l.with("c").with("d")
	fmt.Println(l.items, m.items)
	fmt.Println(len(l.add("e").items))
}
