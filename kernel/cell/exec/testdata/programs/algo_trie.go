// A trie as a map type of itself counts words by prefix.
package main

import (
	"fmt"
	"strings"
)

type trie map[rune]trie

func (t trie) add(w string) {
	for _, r := range w + "\x00" {
		if t[r] == nil {
			t[r] = trie{}
		}
		t = t[r]
	}
}
func (t trie) count() (n int) {
	if t != nil && len(t) == 0 {
		return 1
	}
	for _, c := range t {
		n += c.count()
	}
	return
}
func (t trie) find(prefix string) trie {
	for _, r := range prefix {
		t = t[r]
	}
	return t
}

func main() {
	t := trie{}
	for _, w := range strings.Fields("car card care cat dog do éa éb") {
		t.add(w)
	}
	for _, p := range []string{"car", "c", "do", "é", "x", "cars", ""} {
		fmt.Println(p, t.find(p).count())
	}
}
