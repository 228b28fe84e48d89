// Letters are shifted by a key with byte arithmetic.
package main

import "fmt"

func main() {
	shift := func(s, key string, sign int) string {
		out := []byte(s)
		k := 0
		for i, c := range out {
			if c < 'a' || c > 'z' {
				continue
			}
			d := sign * int(key[k%len(key)]-'a')
			out[i] = 'a' + byte((int(c-'a')+d+26)%26)
			k++
		}
		return string(out)
	}
	s := "attack at dawn, 5 o'clock"
	e := shift(s, "lemon", 1)
	fmt.Println(e, shift(e, "lemon", -1) == s, shift("xyz", "d", 1))
}
