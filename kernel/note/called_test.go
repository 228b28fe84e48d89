package note_test

import (
	"context"
	"testing"

	"ohmwright/kernel/note"
)

// A name goes before what is called the same; of requirements with one
// identifier the one that is missed is told of; a field may be a part.
func TestWhyOfWhatIsCalledOtherwise(t *testing.T) {
	t.Parallel()
	n, _ := compute(t, "R1 := 1kΩ\nU := 5V\nd := divider.Plain(U, R1, R1)\nPart(\"R1\", 2kΩ)\nPart(\"R2\", d.Resistance)",
		"for _, V := range []Quantity{4V, 6V} { Require(U <= V, \"U-1: in a loop\") }\nRequire(U == 5V, \"U-2: just\")")
	for asked, want := range map[string]string{"R1": "R1", "R2": "d", "U-1": "U-1", "U-2": "U-2"} {
		w, err := n.Why(context.Background(), asked, note.WhyOptions{})
		if err != nil || w.Entry.Name != want {
			t.Errorf("%s: %+v, %v", asked, w, err)
			continue
		}
		switch asked {
		case "R1":
			if w.Reference != "" || w.Entry.Line != 1 {
				t.Errorf("R1: %+v", w)
			}
		case "R2":
			if w.Reference != "R2" || w.Field != "Resistance" {
				t.Errorf("R2: %+v", w)
			}
		case "U-1":
			if w.Requirement.Holds || len(w.Inputs) != 1 || w.Inputs[0].Entry.Name != "U" {
				t.Errorf("U-1: %+v", w)
			}
		}
	}
	got, err := n.Touches(context.Background(), "R2")
	if err != nil || got.Entry.Name != "d" || got.Reference != "R2" {
		t.Errorf("%+v, %v", got, err)
	}
}
