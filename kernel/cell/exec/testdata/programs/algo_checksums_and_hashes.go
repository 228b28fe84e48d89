// Simple hashes rely on wrapping unsigned arithmetic.
package main

import "fmt"

func main() {
	fnv := func(s string) uint32 {
		h := uint32(2166136261)
		for i := 0; i < len(s); i++ {
			h ^= uint32(s[i])
			h *= 16777619
		}
		return h
	}
	adler := func(s string) uint32 {
		a, b := uint32(1), uint32(0)
		for _, c := range []byte(s) {
			a = (a + uint32(c)) % 65521
			b = (b + a) % 65521
		}
		return b<<16 | a
	}
	djb := func(s string) (h int32) {
		h = 5381
		for _, c := range s {
			h = h<<5 + h + c
		}
		return
	}
	for _, s := range []string{"", "a", "Wikipedia", "hello world, hello"} {
		fmt.Println(fnv(s), adler(s), djb(s))
	}
}
