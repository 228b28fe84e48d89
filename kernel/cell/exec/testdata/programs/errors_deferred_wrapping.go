// A deferred function adds context to whatever error is returned.
package main

import (
	"errors"
	"fmt"
	"strconv"
)

func wrap(err *error, format string, args ...any) {
	if *err != nil {
		*err = fmt.Errorf("%s: %w", fmt.Sprintf(format, args...), *err)
	}
}
func parse(s string) (n int, err error) {
	defer wrap(&err, "parse %q", s)
	if s == "" {
		return 0, errors.New("empty")
	}
	n, err = strconv.Atoi(s)
	return n * 2, err
}

func main() {
	for _, s := range []string{"21", "", "4x"} {
		fmt.Println(parse(s))
	}
	_, err := parse("99999999999999999999")
	fmt.Println(errors.Is(err, strconv.ErrRange), err)
}
