// A parser by operator precedence evaluates arithmetic with brackets.
package main

import "fmt"

type parser struct{ s string }

var prec = map[byte]int{'+': 1, '-': 1, '*': 2, '/': 2}

func (p *parser) next() (c byte) { c, p.s = p.s[0], p.s[1:]; return }
func (p *parser) factor() int {
	switch c := p.next(); c {
	case '(':
		return p.expr(1) + int(p.next()-')')
	case '-':
		return -p.factor()
	default:
		return int(c - '0')
	}
}
func (p *parser) expr(least int) int {
	v := p.factor()
	for p.s != "" && prec[p.s[0]] >= least {
		switch op := p.next(); op {
		case '+', '-':
			v += p.expr(2) * (',' - int(op))
		case '*':
			v *= p.factor()
		default:
			v /= p.factor()
		}
	}
	return v
}

func main() {
	for _, s := range []string{"1+2*3-(4-6)*8/3", "-(2+3)*-2", "8-3-2", "9/2/(1+1)"} {
		fmt.Println((&parser{s}).expr(1))
	}
}
