// The first matching case wins, interfaces before concrete types if they stand first.
package main

import "fmt"

type t struct{}

func (t) Error() string  { return "as error" }
func (t) String() string { return "as string" }

func main() {
	for _, v := range []any{t{}, &t{}} {
		switch x := v.(type) {
		case fmt.Stringer:
			fmt.Println(x.String())
		case error:
			fmt.Println(x.Error())
		}
		switch v.(type) {
		case *t:
			fmt.Println("pointer")
		case error:
			fmt.Println("error")
		case t:
			fmt.Println("never")
		}
	}
}
