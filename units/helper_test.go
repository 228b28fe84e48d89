package units

import (
	"errors"
	"strings"
	"testing"
)

// refusal runs f and returns the *Error that it panics with, nil if none.
func refusal(f func()) (e *Error) {
	defer func() {
		if r := recover(); r != nil {
			err, _ := r.(error)
			if !errors.As(err, &e) {
				panic(r)
			}
		}
	}()
	f()
	return nil
}

// wantRefusal checks that f panics with an *Error that contains part.
func wantRefusal(t testing.TB, name string, f func(), part string) {
	t.Helper()
	switch e := refusal(f); {
	case e == nil:
		t.Errorf("%s: is not refused", name)
	case !strings.Contains(e.Error(), part):
		t.Errorf("%s: says %q, which does not contain %q", name, e.Error(), part)
	}
}

// q reads a literal or value of a test.
func q(s string) Quantity { return MustParse(s) }

// near reports whether a and b differ by at most rel of the larger.
func near(a, b, rel float64) bool {
	d := a - b
	if d < 0 {
		d = -d
	}
	return d <= rel*max(a, -a, b, -b)
}
