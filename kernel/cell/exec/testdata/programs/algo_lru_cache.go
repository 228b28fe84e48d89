// A cache of the least recently used kind on a hand-made ring.
package main

import "fmt"

type entry struct {
	key        string
	val        int
	prev, next *entry
}
type lru struct {
	size int
	m    map[string]*entry
	root entry
}

func (l *lru) unlink(e *entry) { e.prev.next, e.next.prev = e.next, e.prev }
func (l *lru) front(e *entry) {
	e.prev, e.next = &l.root, l.root.next
	e.prev.next, e.next.prev = e, e
}
func (l *lru) put(k string, v int) {
	if last := l.root.prev; len(l.m) == l.size {
		l.unlink(last)
		delete(l.m, last.key)
	}
	l.m[k] = &entry{key: k, val: v}
	l.front(l.m[k])
}

func main() {
	l := &lru{size: 2, m: map[string]*entry{}}
	l.root.prev, l.root.next = &l.root, &l.root
	l.put("a", 1)
	l.put("b", 2)
	l.unlink(l.m["a"])
	l.front(l.m["a"])
	l.put("c", 3)
	fmt.Println(l.m["b"] == nil, l.m["a"].val, l.root.next.key, l.root.next.next.key, len(l.m))
}
