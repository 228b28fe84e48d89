// What a failed assertion panics with is an error value.
package main

import (
	"errors"
	"fmt"
)

func main() {
	defer func() {
		r := recover()
		err, ok := r.(error)
		fmt.Println(ok, err.Error())
		var target interface{ RuntimeError() }
		fmt.Println(errors.As(err, &target))
	}()
	var v any = 1.5
	_ = v.(string)
}
