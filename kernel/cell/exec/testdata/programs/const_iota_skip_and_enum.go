// An enumeration prints by name through its String method.
package main

import (
	"fmt"
	"strconv"
)

type color int

const (
	red color = iota + 1
	green
	_
	blue
)

func (c color) String() string {
	switch c {
	case red:
		return "red"
	case green:
		return "green"
	case blue:
		return "blue"
	}
	return "color(" + strconv.Itoa(int(c)) + ")"
}

func main() {
	fmt.Println(red, green, blue, color(3), color(0))
	fmt.Printf("%v %d %s|%8s|%-8s|%q %x\n", red, red, green, blue, blue, red, int(red))
}
