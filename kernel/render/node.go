package render

// A node is a piece of a drawn formula. Brackets are nodes here: build set
// them where they are needed, and the writers only write.
type node interface{ node() }

type (
	// ident is a name.
	ident struct {
		typed     string // as in the code
		qualifier string // "supply" in supply.Vbus
		sym       symbol
	}
	// number is a number without a unit, "2", "1e-3", no sign.
	number struct{ text string }
	// quantity is a number with its unit, no sign.
	quantity struct{ number, unit string }
	// words are upright words of ours: "nearest E96 to".
	words struct{ text string }
	// verbatim is text of the user's: source, a string.
	verbatim struct{ text string }
	// function is the name of a function: "ln", "divider.Loaded".
	function struct {
		name string
		base string // subscript of log
	}
	// sign is an operator: "+", "−", "·", "≤".
	sign struct {
		text  string
		space bool // white space around it in a line of text
	}
	// row is nodes side by side.
	row struct{ parts []node }
	// fence is brackets around something: ( ) [ ] { } | |.
	fence struct {
		open, close string
		body        node
	}
	// fraction is drawn with a bar; only in the stacked layout.
	fraction struct{ num, den node }
	// power is base and raised exponent.
	power struct{ base, exponent node }
	// root is a square root.
	root struct{ body node }
)

func (*ident) node()    {}
func (*number) node()   {}
func (*quantity) node() {}
func (*words) node()    {}
func (*verbatim) node() {}
func (*function) node() {}
func (*sign) node()     {}
func (*row) node()      {}
func (*fence) node()    {}
func (*fraction) node() {}
func (*power) node()    {}
func (*root) node()     {}

// Flavour is how a formula or name is written.
type Flavour int

const (
	Plain        Flavour = iota // a line of text: 10 kΩ · Vref/(5 V − Vref)
	TeX                         // TeX without delimiters, amsmath's commands only
	MathML                      // a <math> element
	MarkdownMath                // TeX between dollar signs
)

// linear: fractions are written with a solidus.
func (f Flavour) linear() bool { return f == Plain }

func write(n node, as Flavour) string {
	switch as {
	case TeX:
		return writeTeX(n)
	case MathML:
		return writeMathML(n)
	case MarkdownMath:
		return "$" + writeTeX(n) + "$"
	}
	return spaced(writePlain(n))
}
