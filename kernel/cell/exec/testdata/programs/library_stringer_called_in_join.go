// Methods of program types are found inside values given to the library.
package main

import (
	"errors"
	"fmt"
)

type tag struct{ s string }

func (t tag) String() string { return "<" + t.s + ">" }

type tagErr []tag

func (e tagErr) Error() string { return fmt.Sprintf("bad tags %v", []tag(e)) }

func main() {
	e := tagErr{{"a"}, {"b"}}
	w := fmt.Errorf("ctx %v: %w", tag{"c"}, e)
	fmt.Println(w, errors.Unwrap(w), fmt.Sprint(tag{"d"}, tag{"e"}), fmt.Sprintf("%10s|%-6v|%q", tag{"f"}, tag{"g"}, tag{"h"}))
	var te tagErr
	fmt.Println(errors.As(w, &te))
	fmt.Println(te[1], len(te))
	fmt.Println(errors.Join(w, errors.New("x")))
}
