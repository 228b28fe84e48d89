package preferred

import (
	"fmt"
	"slices"
	"strings"

	"ohmwright/units"
)

// eia96Letters are the multipliers behind the two figures, as powers of ten
// of the three-figure member. R and S are older spellings of Y and X.
//
// Source: code of 1 % chip resistors known as EIA-96, from memory, compared
// with two makers' marking tables.
var eia96Letters = map[byte]int{
	'Z': -3, 'Y': -2, 'R': -2, 'X': -1, 'S': -1,
	'A': 0, 'B': 1, 'C': 2, 'D': 3, 'E': 4, 'F': 5,
}

const eia96Order = "ZYXABCDEF" // what FormatEIA96 writes, rising from −3

// ParseEIA96 reads the three-character code of small 1 % resistors: the
// number of the member in E96, from 01 to 96, and a letter for the power of
// ten.
//
//	ParseEIA96("01A")   // 100 Ω
//	ParseEIA96("68C")   // 49.9 kΩ
//
// Letters: Z 0.001, Y or R 0.01, X or S 0.1, A 1, B 10, C 100, D 1000,
// E 10 000, F 100 000, times the three-figure member (100 to 976). H is
// refused: some makers use it for 10, others for 10 000 000. It is an error
// where the code cannot be read.
//
// Source: EIA-96 marking, from memory, compared with two makers' tables.
func ParseEIA96(code string) (units.Quantity, error) {
	body := strings.TrimSpace(code)
	if len(body) != 3 || hasLetter(body[:2]) {
		return none, fmt.Errorf("marking %q: the code of 1 %% chip resistors is two figures and a letter, such as 01A", code)
	}
	n := int(body[0]-'0')*10 + int(body[1]-'0')
	list := decades[E96.Name]
	if n < 1 || n > len(list) {
		return none, fmt.Errorf("marking %q: its figures are %02d; members of E96 are counted from 01 to 96", code, n)
	}
	power, ok := eia96Letters[body[2]]
	if !ok {
		return none, fmt.Errorf("marking %q: its letter is %q; the multipliers are Z Y X A B C D E F (also R for Y, S for X): look the letter up in the maker's table", code, body[2])
	}
	return units.Parse(decimal(list[n-1].text, power+2) + " Ω")
}

// FormatEIA96 writes a member of E96 in the three-character code of small
// 1 % resistors.
//
//	FormatEIA96(49.9kΩ)   // 68C
//
// Argument: q, a resistance from 100 mΩ to 97.6 MΩ that is a member of E96
// within rounding. Result: the code. It is an error for anything else.
//
// Source: EIA-96 marking, from memory, compared with two makers' tables.
func FormatEIA96(q units.Quantity) (string, error) {
	p, err := partOf("cannot write the code of 1 % chip resistors for", q)
	if err != nil {
		return "", err
	}
	if p.unit != "Ω" {
		return "", fmt.Errorf("marking of %v: the code of 1 %% chip resistors is for resistors: give a value in Ω", q)
	}
	if !IsMember(E96, q) {
		return "", fmt.Errorf("marking of %v: the code of 1 %% chip resistors holds members of E96 only: choose one with Nearest(E96, x)", q)
	}
	digits, power := figures(Nearest(E96, q)) // q may be off by rounding
	digits += strings.Repeat("0", 3-len(digits))
	place := power - 2 + 3
	if place < 0 || place >= len(eia96Order) {
		return "", fmt.Errorf("marking of %v: the code of 1 %% chip resistors goes from 100 mΩ to 97.6 MΩ: use the letter and digit code", q)
	}
	i := slices.IndexFunc(decades[E96.Name], func(m member) bool { return strings.Replace(m.text, ".", "", 1) == digits })
	return fmt.Sprintf("%02d%c", i+1, eia96Order[place]), nil
}
