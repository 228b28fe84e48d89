package jupyter

import "testing"

// What a cell says of the board is replaced where it stands when another cell
// changes it: a waiver, a rule, a requirement in a case, a second reference.
func TestBoardIsReplaced(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.execute("a", "V := 3V\nRequire(V <= 2V, \"PWR-3: low\")")
	s.want("FAILS PWR-3")
	s.execute("b", "Waive(\"PWR-3\", \"bench\")")
	s.want("waived PWR-3", "not FAILS")
	s.execute("c", "Case(\"high\", V, 9V)")
	s.want("holds operating case high")
	s.execute("a", "V := 3V\nRequire(V <= 12V, \"PWR-3: low\")")
	s.want("PWR-3 holds: nothing is waived")
	s.execute("d", "Part(\"C1\", 1µF, Rated(\"voltage\", 16V, V))")
	s.want("18.8 % of the rating")
	s.execute("e", "Derate(\"voltage\", 10%)")
	s.want("FAILS C1 voltage: at most 10 %", "for 1 rating")
	s.execute("f", "Part(\"C1\", 2µF)")
	s.want("C1 stands twice")
	s.execute("d", "x := 1")
	s.want("not C1 stands twice", "no part has such a rating")
	s.execute("f", "Require(V > 1V, \"PWR-3: high\")")
	s.want("PWR-3 stands twice")
	s.execute("a", "V := 3V\nRequire(V <= 12V, \"PWR-4: low\")")
	s.want("not stands twice")
}
