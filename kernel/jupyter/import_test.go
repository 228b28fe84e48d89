package jupyter

import (
	"fmt"
	"testing"

	"ohmwright/kernel/note"
)

// A note that another imports changes on disk: with the next execution what
// comes from it is replaced where it stands, and says why it moved.
func TestEngineImportsAgain(t *testing.T) {
	t.Parallel()
	text := "Vbus := 5V // the bus"
	e, err := NewEngine(nil, func(file string) ([]note.Source, error) {
		if file != "10-supply.ipynb" {
			return nil, fmt.Errorf("there is no file %s", file)
		}
		return []note.Source{{ID: "a", Label: "cell 1", Code: text}, {ID: "b", Label: "cell 2", Code: "Require(Vbus > 4V, \"the bus is there\")"}}, nil
	})
	if err != nil {
		t.Fatal(err)
	}
	s := &sitting{t: t, engine: e, screen: &screen{shown: map[string]string{}, by: map[string]string{}}}
	s.execute("a", "import supply \"10-supply.ipynb\"")
	s.want("supply 10-supply.ipynb", "not fails")
	s.execute("b", "I := supply.Vbus / 10Ω")
	s.execute("c", "other := 2V")
	s.want("I 500 mA", "other 2 V")

	// 3 V / 10 Ω; the requirement there fails, which the import says.
	text = "Vbus := 3V // the bus"
	s.execute("c", "other := 3V")
	s.want("I 300 mA", "before 10-supply.ipynb changed: I 500 mA", "fails the bus is there", "other 3 V")

	text = "Vbus := 3V + 1A"
	s.execute("c", "other := 4V")
	s.want("waits for supply.Vbus of cell 1 of 10-supply.ipynb", "error cell 1 has an error")
	text = "Vbus := 6V"
	s.execute("c", "other := 5V")
	s.want("I 600 mA", "not waits", "not fails", "not has an error")

	// The import goes, and what uses it says so; and it comes back.
	s.execute("a", "x := 1V")
	s.want("supply is not defined")
	s.execute("a", "import supply \"10-supply.ipynb\"")
	s.want("I 600 mA", "supply 10-supply.ipynb")
}
