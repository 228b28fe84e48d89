// Types, variables and struct values of libraries are used in the program.
package main

import (
	"errors"
	"fmt"
	"sort"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

func main() {
	err := &strconv.NumError{Func: "f", Num: "1x", Err: strconv.ErrSyntax}
	fmt.Println(err, err.Func, errors.Is(err, strconv.ErrSyntax))
	var e error = err
	ne, ok := e.(*strconv.NumError)
	fmt.Println(ok, ne == err, ne.Num)
	fmt.Println(unicode.Is(unicode.Han, '世'), unicode.In('é', unicode.Latin, unicode.Greek), utf8.RuneError == 0xFFFD, utf8.UTFMax)
	xs := sort.StringSlice{"b", "a"}
	xs.Sort()
	fmt.Println(xs, len(xs), []string(xs)[0])
	r := strings.NewReplacer("a", "1", "b", "2")
	fmt.Println(r.Replace("abc"))
}
