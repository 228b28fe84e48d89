package jupyter

import (
	"errors"
	"testing"
)

// A file that changed under the kernel's hands: whatever cell is run next, what
// reads the file is computed again and replaced where it stands, and the page
// says what moved.
func TestEngineReadsAgain(t *testing.T) {
	t.Parallel()
	text, missing := "x [V], y [A]\n0,0\n1,10\n", errors.New("there is no such file")
	var gone error
	e, err := NewEngine(func(name string) ([]byte, error) {
		if name != "curve.csv" {
			return nil, missing
		}
		return []byte(text), gone
	}, nil)
	if err != nil {
		t.Fatal(err)
	}
	s := &sitting{t: t, engine: e, screen: &screen{shown: map[string]string{}, by: map[string]string{}}}
	s.execute("a", "curve := Table(\"curve.csv\") // of the part")
	s.execute("b", "I := curve.At(0.5V)")
	s.execute("c", "P := 2V * I")
	s.execute("d", "Table(\"curve.csv\").At(0.1V)")
	// The first digits of the SHA-256 by sha256sum.
	s.want("2 rows of the part curve.csv, sha256 786b0c7fd6e7", "I 5 A", "P 10 W", "1 A")

	text = "x [V], y [A]\n0,0\n1,12\n"
	s.execute("e", "other := 3V")
	s.want("not 786b0c7fd6e7", "I 6 A", "P 12 W", "1.2 A", "before curve.csv changed: I 5 A", "before curve.csv changed: P 10 W", "before curve.csv changed: Table(\"curve.csv\").At(100 mV) 1 A")

	gone = missing
	s.execute("e", "other := 4V")
	s.want("there is no such file", "waits for curve of In [1]", "before curve.csv changed: I 6 A")
	gone = nil
	s.execute("e", "other := 5V")
	s.want("I 6 A", "P 12 W", "not there is no such file", "not before")
}
