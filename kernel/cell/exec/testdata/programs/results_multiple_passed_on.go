// The results of a call are passed on as the arguments of another.
package main

import "fmt"

func two() (int, string)            { return 1, "a" }
func take(n int, s string) string   { return fmt.Sprintf("%d%s", n, s) }
func all(xs ...any) int             { return len(xs) }
func mix(n int, rest ...string) int { return n + len(rest) }
func again() (int, string)          { return two() }

type t struct{ k int }

func (x t) m(n int, s string) string { return fmt.Sprintf("%d%d%s", x.k, n, s) }

func main() {
	fmt.Println(take(two()), all(two()), mix(two()), take(again()), t{7}.m(two()), t.m(t{8}, 1, "z"))
	fmt.Println(two())
	f := func(n int, s string) (string, int) { return s, n }
	fmt.Println(f(two()))
}
