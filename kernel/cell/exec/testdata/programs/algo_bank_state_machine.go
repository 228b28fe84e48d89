// Accounts with errors, maps and methods in one small model.
package main

import (
	"errors"
	"fmt"
)

type account struct {
	owner string
	cents int
}
type bank struct {
	accounts map[string]*account
	log      []string
}
type shortError struct{ need, have int }

func (e shortError) Error() string { return fmt.Sprintf("short by %.2f", float64(e.need-e.have)/100) }
func (b *bank) move(from, to string, cents int) error {
	src, ok := b.accounts[from]
	if !ok {
		return fmt.Errorf("no account %q", from)
	}
	if src.cents < cents {
		return fmt.Errorf("%s: %w", from, shortError{cents, src.cents})
	}
	src.cents -= cents
	b.accounts[to].cents += cents
	b.log = append(b.log, fmt.Sprintf("%s>%s:%d", from, to, cents))
	return nil
}

func main() {
	b := &bank{accounts: map[string]*account{"a": {"A", 1000}, "b": {"B", 50}}}
	fmt.Println(b.move("a", "b", 250), b.move("b", "a", 900), b.move("x", "a", 1))
	var se shortError
	ok := errors.As(b.move("b", "a", 301), &se)
	fmt.Println(ok, se.need, b.log, *b.accounts["a"], *b.accounts["b"])
}
