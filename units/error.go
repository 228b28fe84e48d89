package units

// Error is what arithmetic on quantities panics with, and what reading a
// value returns: a message in lower case that shows both sides, and what to
// write instead. The engine turns the panic into an error of the cell.
type Error struct {
	Msg  string // "cannot add 3.3 V (voltage) and 20 mA (current)"
	Hint string // what to write instead, "" if there is nothing to say
}

// Error returns the message with its hint.
func (e *Error) Error() string {
	if e.Hint == "" {
		return e.Msg
	}
	return e.Msg + ": " + e.Hint
}

// refuse stops an operation that makes no sense.
func refuse(msg, hint string) {
	panic(&Error{Msg: msg, Hint: hint})
}
