package table

import (
	"errors"
	"fmt"
	"strings"

	"ohmwright/units"
)

// heading reads "hold current [A] log".
func heading(text string) (column, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return column{}, errors.New("the heading is empty: write a name and a unit, as in ambient [°C]")
	}
	open := strings.LastIndexByte(text, '[')
	if open < 0 {
		return column{}, fmt.Errorf("the heading %s has no unit: write %s, or [1] as the unit of a plain number", quoted(text), withBrackets(text))
	}
	shut := strings.IndexByte(text[open:], ']')
	if shut < 0 {
		return column{}, fmt.Errorf("the heading %s lacks its closing bracket: write for instance ambient [°C]", quoted(text))
	}
	c := column{
		name: strings.Join(strings.Fields(text[:open]), " "),
		unit: strings.TrimSpace(text[open+1 : open+shut]),
	}
	if c.name == "" {
		return column{}, fmt.Errorf("the heading %s has no name: write for instance ambient %s", quoted(text), quoted(text))
	}
	switch behind := strings.TrimSpace(text[open+shut+1:]); behind {
	case "":
	case "log":
		c.log = true
	default:
		return column{}, fmt.Errorf("the heading %s has %s behind its unit: only log may stand there", quoted(text), quoted(behind))
	}
	one, err := oneOf(c.unit)
	if err != nil {
		return column{}, err
	}
	c.one = one
	if why := c.noLog(); c.log && why != "" {
		return column{}, errors.New(why)
	}
	return c, nil
}

// withBrackets guesses how the heading should have been written.
func withBrackets(text string) string {
	for _, marks := range []string{"()", "/"} {
		if i := strings.LastIndexByte(text, marks[0]); i > 0 {
			unit := strings.TrimSpace(strings.Trim(text[i+1:], marks))
			if _, err := oneOf(unit); err == nil {
				return strings.TrimSpace(text[:i]) + " [" + unit + "]"
			}
		}
	}
	if i := strings.LastIndexByte(text, ' '); i > 0 {
		if _, err := oneOf(text[i+1:]); err == nil {
			return strings.TrimSpace(text[:i]) + " [" + text[i+1:] + "]"
		}
	}
	return text + " [V]"
}

// oneOf returns the value 1 of a unit.
func oneOf(unit string) (units.Quantity, error) {
	if unit == "" {
		return none, errors.New("the unit between the brackets is missing: write it, or [1] for a plain number")
	}
	if unit == "1" {
		return units.Number(1), nil
	}
	one, err := units.Parse("1 " + unit)
	if err == nil {
		return one, nil
	}
	var known *units.Error
	if !errors.As(err, &known) {
		return none, err
	}
	_, why, _ := strings.Cut(known.Msg, ": ")
	if why == "" {
		why = known.Msg
	}
	return none, (&units.Error{Msg: "the unit " + quoted(unit) + " cannot be read: " + why, Hint: known.Hint})
}

func quoted(s string) string {
	if r := []rune(s); len(r) > 40 {
		s = string(r[:40]) + "…"
	}
	return "“" + s + "”"
}
