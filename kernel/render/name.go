package render

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// A symbol is a name taken apart for typesetting.
type symbol struct {
	prefix string // "Δ" before a difference, "" elsewhere
	base   string // "V", "θ", "margin"
	sub    string // "in", "JA", "in,max", "" if there is none
	word   bool   // base is a word: upright, not a quantity symbol
}

// Name typesets a name of a note. In Plain it stays as it was typed, for it
// is what the reader types into --set and why; the other flavours write it
// as the trade does, by this rule, first match first:
//
//  1. A name with a qualifier keeps it: supply.Vbus is the word supply, a
//     point, and V with the subscript bus. math.Pi is π.
//  2. An underscore parts base and subscript, R_top, theta_JA, eff_max;
//     further ones become commas, V_in_max. At the start or end of a name
//     it parts nothing and the name is a word.
//  3. A Greek letter, or one spelt out, is that letter: η, eta, Omega.
//     Capitals that look like Latin ones are not read (Alpha, Mu), nor Xi.
//  4. Behind a Greek letter everything is subscript: θJA, ηmin. Behind one
//     spelt out only what starts with a capital or a digit: thetaJA, tau1;
//     pin and etalon stay what they are. Δ stands before a symbol of its
//     own: ΔT, DeltaVout.
//  5. A Latin letter alone is a symbol. With digits behind it they are its
//     subscript (R1, x2), behind a capital also with a letter, a subscript
//     or a rail after them (R1a, R1min, V3V3); the series E3 to E192 are words.
//  6. A letter of the trade (see baseLetters) with a subscript of the trade
//     behind it, in small letters, with a capital, or all in capitals, and a
//     number or max, min, on, sat, … behind that: Vin, Rtop, VOut, VCC, VIN,
//     RDSon, ILmax, Vin2, RthJA. Two-letter names as the trade has them: Ta,
//     Tj, Pd, fc, tr, RL. A capitalised word behind a capital, t or f: RLoad,
//     tWater. Any small letters behind a capital with which no English word
//     starts so: Rdyn, Vpart, Lcable.
//  7. Everything else is a word and stays whole and upright: margin, ESR,
//     Power, Total, Index, I2C. So does what reads as a word although it
//     could be split: wordsNotSymbols lists those (Stop, Bin, To, DAC).
func Name(name string, as Flavour) string {
	return write(nameNode(name), as)
}

// nameNode typesets a name that may have a qualifier.
func nameNode(name string) node {
	if i := strings.LastIndexByte(name, '.'); i >= 0 {
		if last := name[i+1:]; last == "Pi" {
			return identNode(name, symbol{base: "π"})
		}
		return &ident{typed: name, qualifier: name[:i], sym: split(name[i+1:])}
	}
	return identNode(name, split(name))
}

func identNode(typed string, s symbol) node { return &ident{typed: typed, sym: s} }

// split takes a name apart by the rule that Name documents.
func split(name string) symbol {
	word := symbol{base: name, word: true}
	if i := strings.IndexByte(name, '_'); i >= 0 {
		base, sub := name[:i], name[i+1:]
		if base == "" || strings.HasPrefix(sub, "_") || strings.HasSuffix(sub, "_") || sub == "" {
			return word
		}
		s := split(base)
		sub = strings.ReplaceAll(sub, "_", ",")
		if s.sub != "" {
			sub = s.sub + "," + sub
		}
		s.sub = sub
		return s
	}
	if wordsNotSymbols[name] {
		return word
	}
	if s, ok := splitGreek(name); ok {
		return s
	}
	first, size := utf8.DecodeRuneInString(name)
	rest := name[size:]
	if first > unicode.MaxASCII || !unicode.IsLetter(first) {
		return word
	}
	if rest == "" {
		return symbol{base: name}
	}
	if sub, ok := numberSubscript(byte(first), rest); ok {
		return symbol{base: name[:size], sub: sub}
	}
	if sub, ok := tradeSubscript(byte(first), rest); ok {
		return symbol{base: name[:size], sub: sub}
	}
	return word
}

// splitGreek reads rules 3 and 4.
func splitGreek(name string) (symbol, bool) {
	first, size := utf8.DecodeRuneInString(name)
	if first == 'Δ' || first == 'δ' {
		return splitDelta(string(first), name[size:])
	}
	if unicode.Is(unicode.Greek, first) || first == 'µ' {
		if first == 'µ' {
			first = 'μ'
		}
		rest := name[size:]
		for _, r := range rest {
			if r > unicode.MaxASCII {
				return symbol{}, false // a word in Greek
			}
		}
		return symbol{base: string(first), sub: rest}, true
	}
	if letter, ok := greekWords[name]; ok {
		return symbol{base: letter}, true
	}
	// From three letters on: muX and piX are too short to be sure.
	for n := min(len(name)-1, 7); n >= 3; n-- {
		letter, ok := greekWords[name[:n]]
		if !ok {
			continue
		}
		rest := name[n:]
		if letter == "Δ" || letter == "δ" {
			return splitDelta(letter, rest)
		}
		if c := rest[0]; c >= '0' && c <= '9' || c >= 'A' && c <= 'Z' {
			return symbol{base: letter, sub: rest}, true
		}
	}
	return symbol{}, false
}

// splitDelta: a difference is a sign before a symbol, ΔT, ΔVout.
func splitDelta(sign, rest string) (symbol, bool) {
	if rest == "" {
		return symbol{base: sign}, true
	}
	s := split(rest)
	if sign == "δ" || s.prefix != "" || s.word && s.sub == "" {
		if c := rest[0]; c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' {
			return symbol{base: sign, sub: rest}, true
		}
		return symbol{}, false
	}
	s.prefix = sign
	return s, true
}

// numberSubscript: digits alone, or behind a capital with a letter, a
// subscript of the trade (R1a, R1min) or a rail (V3V3) after them.
func numberSubscript(base byte, s string) (string, bool) {
	tail := strings.TrimLeft(s, "0123456789")
	digits := s[:len(s)-len(tail)]
	if digits == "" {
		return "", false
	}
	if tail == "" {
		return s, true
	}
	if base >= 'a' {
		return "", false // a2b: a name of its own
	}
	if rail, ok := strings.CutPrefix(tail, "V"); ok {
		return s, strings.Trim(rail, "0123456789") == ""
	}
	if len(tail) == 1 {
		return s, tail[0] >= 'a' && tail[0] <= 'z'
	}
	return digits + "," + tail, tail == strings.ToLower(tail) && knownSubscript(base, tail)
}

// tradeSubscript reads rule 6: what stands behind a base letter.
func tradeSubscript(base byte, s string) (string, bool) {
	if len(s) == 1 {
		return s, strings.IndexByte(singleSubscripts[base], s[0]) >= 0
	}
	if strings.IndexByte(baseLetters, base) < 0 {
		return s, noWord(base, s)
	}
	body := strings.TrimRight(s, "0123456789")
	digits := s[len(body):]
	if knownSubscript(base, body) {
		return s, true
	}
	for n := 1; n < len(body); n++ {
		head, tail := body[:n], body[n:]
		if qualifiers[strings.ToLower(tail)] && (knownSubscript(base, head) || terminal(base, head, tail)) {
			return head + "," + tail + digits, true
		}
	}
	// RthJA: a thermal resistance between two places.
	if places, ok := strings.CutPrefix(body, "th"); ok && len(places) == 2 && places == strings.ToUpper(places) {
		return "th," + places + digits, true
	}
	// RLoad, VSupply: the capital says where the base ends.
	hump := strings.IndexByte(humpLetters, base) >= 0 && len(s) >= 4 && s[0] >= 'A' && s[0] <= 'Z' &&
		strings.Trim(s[1:], "abcdefghijklmnopqrstuvwxyz") == ""
	return s, hump || noWord(base, s)
}

// noWord: small letters that no English word has behind the capital, from three
// on: with fewer it may be an abbreviation (Pcb, Ldo).
func noWord(base byte, s string) bool {
	begins, ok := wordStarts[base]
	body := strings.TrimRight(s, "0123456789")
	return ok && len(body) >= 3 && strings.Trim(body, "abcdefghijklmnopqrstuvwxyz") == "" &&
		strings.IndexByte("aeiouy"+begins, body[0]) < 0
}

// terminal: a letter that may stand alone between base and tail, a capital
// before max, on, … (ILmax) or a small one before a figure (Tjmax).
func terminal(base byte, head, tail string) bool {
	if len(head) != 1 || tail != strings.ToLower(tail) {
		return false
	}
	if strings.IndexByte(singleSubscripts[base], head[0]) < 0 && !(base == 'I' && head == "C") {
		return false
	}
	return head[0] <= 'Z' || base <= 'Z' && figures[tail]
}

// knownSubscript: in, In or IN as one subscript of the trade behind base.
func knownSubscript(base byte, s string) bool {
	if s == "" {
		return false
	}
	low := strings.ToLower(s)
	switch {
	case s == low:
	case base >= 'a':
		return false // fIN: no such habit
	case s[1:] == low[1:]: // In
	case s == strings.ToUpper(s): // IN
		if !capitalSubscripts[string(base)+s] && strings.IndexByte("VUI", base) < 0 {
			return false
		}
	default:
		return false
	}
	return subscripts[low] ||
		supplySubscripts[low] && strings.IndexByte("VUIvi", base) >= 0 ||
		powerSubscripts[low] && strings.IndexByte("VUIPvi", base) >= 0 ||
		capacitanceSubscripts[low] && strings.IndexByte("CQ", base) >= 0
}
