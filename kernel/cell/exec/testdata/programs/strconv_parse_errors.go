// Failed conversions give errors that name function, text and cause.
package main

import (
	"errors"
	"fmt"
	"strconv"
)

func main() {
	_, e1 := strconv.Atoi("12x")
	_, e2 := strconv.ParseInt("300", 10, 8)
	_, e3 := strconv.ParseFloat("1.2.3", 64)
	_, e4 := strconv.ParseBool("maybe")
	_, e5 := strconv.ParseUint("-1", 10, 64)
	for _, e := range []error{e1, e2, e3, e4, e5} {
		fmt.Println(e)
	}
	var ne *strconv.NumError
	fmt.Println(errors.As(e2, &ne))
	fmt.Println(ne.Func, ne.Num, ne.Err, errors.Is(e2, strconv.ErrRange), errors.Is(e1, strconv.ErrSyntax))
}
