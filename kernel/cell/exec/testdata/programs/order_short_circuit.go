// The right operand of && and || is evaluated only if needed.
package main

import "fmt"

func main() {
	log := ""
	t := func(s string) bool { log += s; return true }
	f := func(s string) bool { log += s; return false }
	fmt.Println(f("a") && t("b"), t("c") || f("d"), f("e") || f("f") && t("g"), !(t("h") && f("i")) || t("j"))
	fmt.Println(log)
	var p *struct{ x int }
	fmt.Println(p != nil && p.x > 0, p == nil || p.x > 0)
	s := []int{}
	i := 3
	fmt.Println(i < len(s) && s[i] > 0)
}
