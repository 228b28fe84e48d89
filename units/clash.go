package units

import "fmt"

// clashes reports two spellings of the table that are the same text: a prefix
// with a unit that equals another unit, or another prefix with a unit. The
// tests call it: it costs more than loading, and the table only changes with
// the program.
func (t *table) clashes() error {
	seen := map[string]string{}
	take := func(spelling, meaning string) error {
		if other, ok := seen[spelling]; ok && other != meaning {
			return fmt.Errorf("%s is %s and %s", spelling, other, meaning)
		}
		seen[spelling] = meaning
		return nil
	}
	for _, e := range t.order {
		for _, s := range append([]string{e.unit.Symbol}, e.also...) {
			if err := take(s, e.unit.Symbol); err != nil {
				return err
			}
			for _, p := range t.prefixes {
				if !e.takes.has(p) {
					continue
				}
				for _, ps := range append([]string{p.symbol}, p.also...) {
					if err := take(ps+s, p.symbol+"·"+e.unit.Symbol); err != nil {
						return err
					}
				}
			}
		}
	}
	return nil
}
