// A CRC-32 by table equals the published check value.
package main

import "fmt"

func main() {
	var table [256]uint32
	for i := range table {
		c := uint32(i)
		for range 8 {
			if c&1 == 1 {
				c = c>>1 ^ 0xedb88320
			} else {
				c >>= 1
			}
		}
		table[i] = c
	}
	crc := func(s string) uint32 {
		c := ^uint32(0)
		for _, b := range []byte(s) {
			c = table[byte(c)^b] ^ c>>8
		}
		return ^c
	}
	fmt.Printf("%08x %08x %t\n", crc("123456789"), crc(""), crc("123456789") == 0xcbf43926)
}
