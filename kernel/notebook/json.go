package notebook

import (
	"slices"
	"strings"
)

// maxDepth bounds the nesting of brackets: a few hundred thousand of them in a
// row would otherwise exhaust the stack. Real files stay below twenty; Python's
// own reader gives up near a thousand.
const maxDepth = 900

// kind of a JSON value.
type kind uint8

const (
	null kind = iota
	boolean
	number
	text
	array
	object
)

// String names the kind as messages do.
func (k kind) String() string {
	return [...]string{"null", "true or false", "a number", "a text", "a list", "an object"}[k]
}

// node is a JSON value that remembers how the file spells it.
type node struct {
	kind    kind
	at      int       // where it starts in the file
	raw     string    // its text in the file; "" for a value that is new
	str     string    // text: decoded; number and boolean: as spelt
	items   []*node   // array
	members []*member // object
}

// member is one key of an object with its value.
type member struct {
	name  string
	at    int   // where the name starts in the file; -1 for a key that is new
	value *node // as it is now
	orig  *node // as the file has it; nil for a key that is new
}

// find gives the member of an object with that name, or nil.
func (n *node) find(name string) *member {
	if n == nil {
		return nil
	}
	for _, m := range n.members {
		if m.name == name {
			return m
		}
	}
	return nil
}

// get gives the value of the member with that name, or nil.
func (n *node) get(name string) *node {
	if m := n.find(name); m != nil {
		return m.value
	}
	return nil
}

// set gives the member with that name a new value.
func (n *node) set(name string, value *node) {
	if m := n.find(name); m != nil {
		m.value = value
		return
	}
	n.members = append(n.members, &member{name: name, at: -1, value: value})
}

// remove takes the member with that name away.
func (n *node) remove(name string) {
	n.members = slices.DeleteFunc(n.members, func(m *member) bool { return m.name == name })
}

// end is where a value that the file has ends in it.
func (n *node) end() int { return n.at + len(n.raw) }

// parser reads JSON as RFC 8259 defines it, and refuses repeated keys.
type parser struct {
	src  string
	pos  int
	open []int // where the brackets that are still open stand
}

// parseJSON reads one JSON value that fills the whole text.
func parseJSON(src string) (*node, *Error) {
	p := &parser{src: src}
	p.space()
	n, err := p.value()
	if err != nil {
		return nil, err
	}
	p.space()
	if p.pos < len(src) {
		return nil, p.unexpected("the end of the file")
	}
	return n, nil
}

func (p *parser) space() {
	for p.pos < len(p.src) {
		switch p.src[p.pos] {
		case ' ', '\t', '\n', '\r':
			p.pos++
		default:
			return
		}
	}
}

// peek gives the next byte; 0, which no JSON begins with, at the end.
func (p *parser) peek() byte {
	if p.pos < len(p.src) {
		return p.src[p.pos]
	}
	return 0
}

func (p *parser) value() (*node, *Error) {
	at := p.pos
	n := &node{at: at}
	var err *Error
	switch c := p.peek(); {
	case c == '{':
		err = p.object(n)
	case c == '[':
		err = p.array(n)
	case c == '"':
		n.kind = text
		n.str, err = p.text()
	case c == '-' || c >= '0' && c <= '9':
		n.kind = number
		err = p.number()
		n.str = p.src[at:p.pos]
	case p.word("null"):
		n.kind = null
	case p.word("true"), p.word("false"):
		n.kind = boolean
		n.str = p.src[at:p.pos]
	default:
		err = p.unexpected("a value")
	}
	if err != nil {
		return nil, err
	}
	n.raw = p.src[at:p.pos]
	return n, nil
}

func (p *parser) word(w string) bool {
	if strings.HasPrefix(p.src[p.pos:], w) {
		p.pos += len(w)
		return true
	}
	return false
}

// enter steps over an opening bracket.
func (p *parser) enter() *Error {
	if len(p.open) == maxDepth {
		return errorAt(p.src, p.pos, "", "brackets are nested more than %d deep", maxDepth)
	}
	p.open = append(p.open, p.pos)
	p.pos++
	p.space()
	return nil
}

// leave steps over a closing bracket.
func (p *parser) leave() {
	p.open = p.open[:len(p.open)-1]
	p.pos++
}

func (p *parser) array(n *node) *Error {
	n.kind = array
	if err := p.enter(); err != nil {
		return err
	}
	if p.peek() == ']' {
		p.leave()
		return nil
	}
	for {
		item, err := p.value()
		if err != nil {
			return err
		}
		n.items = append(n.items, item)
		p.space()
		switch p.peek() {
		case ',':
			p.pos++
			p.space()
		case ']':
			p.leave()
			return nil
		default:
			return p.unexpected(`"," or "]"`)
		}
	}
}

func (p *parser) object(n *node) *Error {
	n.kind = object
	if err := p.enter(); err != nil {
		return err
	}
	if p.peek() == '}' {
		p.leave()
		return nil
	}
	seen := map[string]bool{}
	for {
		at := p.pos
		if p.peek() != '"' {
			return p.unexpected("a key in double quotes")
		}
		name, err := p.text()
		if err != nil {
			return err
		}
		if seen[name] {
			return errorAt(p.src, at, "remove one of the two", "key %s stands twice in one object", quote(name))
		}
		seen[name] = true
		p.space()
		if p.peek() != ':' {
			return p.unexpected(`":"`)
		}
		p.pos++
		p.space()
		value, err := p.value()
		if err != nil {
			return err
		}
		n.members = append(n.members, &member{name: name, at: at, value: value, orig: value})
		p.space()
		switch p.peek() {
		case ',':
			p.pos++
			p.space()
		case '}':
			p.leave()
			return nil
		default:
			return p.unexpected(`"," or "}"`)
		}
	}
}

func (p *parser) number() *Error {
	p.word("-")
	if !p.word("0") && !p.digits() {
		return p.unexpected("a digit")
	}
	if p.word(".") && !p.digits() {
		return p.unexpected("a digit")
	}
	if p.word("e") || p.word("E") {
		if !p.word("+") {
			p.word("-")
		}
		if !p.digits() {
			return p.unexpected("a digit")
		}
	}
	return nil
}

func (p *parser) digits() bool {
	start := p.pos
	for c := p.peek(); c >= '0' && c <= '9'; c = p.peek() {
		p.pos++
	}
	return p.pos > start
}
