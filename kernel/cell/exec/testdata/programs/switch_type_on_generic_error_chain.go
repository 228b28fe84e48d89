// A loop unwraps errors and switches on each link's type.
package main

import (
	"errors"
	"fmt"
)

type level int

func (l level) Error() string { return fmt.Sprintf("level %d", int(l)) }

type wrapped struct {
	msg string
	error
}

func (w wrapped) Unwrap() error { return w.error }

func main() {
	var err error = wrapped{"top", fmt.Errorf("mid: %w", &wrapped{"low", level(3)})}
	for e := err; e != nil; e = errors.Unwrap(e) {
		switch x := e.(type) {
		case wrapped:
			fmt.Println("value", x.msg, x.Error())
		case *wrapped:
			fmt.Println("pointer", x.msg)
		case level:
			fmt.Println("level", x+1, int(x))
		default:
			fmt.Println("other", x)
		}
	}
}
