// A generic type with a function field and a method that returns several values.
package main

import (
	"fmt"
	"strconv"
	"strings"
)

type cache[K comparable, V any] struct {
	m     map[K]V
	order []K
	load  func(K) (V, error)
}

func (c *cache[K, V]) get(k K) (v V, hit bool, err error) {
	if v, hit = c.m[k]; hit {
		return
	}
	if v, err = c.load(k); err != nil {
		return v, false, fmt.Errorf("load %v: %w", k, err)
	}
	if len(c.order) == 2 {
		delete(c.m, c.order[0])
		c.order = c.order[1:]
	}
	c.m[k], c.order = v, append(c.order, k)
	return
}

func main() {
	c := &cache[string, int]{m: map[string]int{}, load: strconv.Atoi}
	for _, k := range strings.Fields("1 2 1 3 1 x 2") {
		fmt.Println(c.get(k))
	}
	fmt.Println(c.order)
}
