package cell

import (
	"go/token"
	"testing"
)

func TestSettings(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		src  string
		want []Setting
	}{
		{"Boards(20_000)", []Setting{{Name: "Boards", Number: 20000}}},
		{"Boards(20_000)\nPartsAreNormal(3)", []Setting{{Name: "Boards", Number: 20000}, {Name: "PartsAreNormal", Number: 3}}},
		{"PartsAreNormal(2.5) // the maker says so", []Setting{{Name: "PartsAreNormal", Number: 2.5}}},
		{"Boards(10)", nil},              // too few to say anything
		{"Boards(1_000_000_000)", nil},   // more than memory holds
		{"Boards(n)", nil},               // the note reads it before it computes
		{"if true { Boards(500) }", nil}, // and it is not for some cases only
		{"x := 5V\nBoards(500)", []Setting{{Name: "Boards", Number: 500}}},
		{"builtin.Boards(500)", nil},
	} {
		p, _ := Parse(token.NewFileSet(), "c", c.src, nil)
		got := p.Settings()
		if len(got) != len(c.want) {
			t.Errorf("%q: %v, want %v", c.src, got, c.want)
			continue
		}
		for i, s := range got {
			if s.Name != c.want[i].Name || s.Number != c.want[i].Number {
				t.Errorf("%q: %v, want %v", c.src, s, c.want[i])
			}
		}
	}
}
