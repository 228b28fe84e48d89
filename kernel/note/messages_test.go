package note_test

import (
	"context"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/note"
)

// messages is every message that a cell or the note can give, with cells that
// provoke it; three dashes stand between cells. The text is the first error in
// the order of the cells, with its cell, line and column, as people see it.
//
// A message of Go's parser or checker stands here where it is reworded, and
// with one example where it is not.
var messages = []struct{ cells, want string }{
	// The scan.
	{"ƣ1 := 3", "cell 1 1:1 syntax: a name cannot contain ƣ: the program keeps this letter for itself, use another"},
	{"aƣ := 3", "cell 1 1:1 syntax: a name cannot contain ƣ: the program keeps this letter for itself, use another"},
	{"x := 2i", "cell 1 1:6 refused: complex numbers are not available in cells: work with magnitude and phase"},
	{"x := 2.5e3i", "cell 1 1:6 refused: complex numbers are not available in cells: work with magnitude and phase"},
	{"x := 10k", "cell 1 1:6 literal: 10k has a prefix without a unit: write 10kΩ (10kohm), 10kHz or 10kV"},
	{"x := 5 + 4.7kOhmz", "cell 1 1:10 literal: unknown unit kOhmz: did you mean kΩ (kOhm)?"},
	{"x := 7%4", "cell 1 1:6 literal: 7% is a percentage, and a value follows it: write spaces around % for the remainder, or an operator behind the percentage"},
	{"x := 1e400V", "cell 1 1:6 literal: 1e400V: the number is too large: the largest is about 1.8e308 in SI units"},
	// The parser.
	{"x := (1 +\n2))", "cell 1 2:3 syntax: unexpected ): nothing is open here"},
	{"x := 1\n}", "cell 1 2:1 syntax: unexpected }: nothing is open here"},
	{"x := \"\xff\"", "cell 1 1:1 syntax: the cell is not valid UTF-8 text"},
	{"x := 5 V", "cell 1 1:8 syntax: a number and its unit are written without a space: write 5V"},
	{"x := 5V 6V", "cell 1 1:9 syntax: expected ';', found 6V"},
	{"if 5V > 3V {", "cell 1 1:13 syntax: the cell ends in the middle of something: a bracket or a brace is not closed"},
	{"x := f(1,", "cell 1 1:10 syntax: the cell ends in the middle of something: a bracket or a brace is not closed"},
	{"x := \"open", "cell 1 1:6 syntax: string literal not terminated"},
	{"import 5V", "cell 1 1:1 syntax: this import cannot be read: write import \"strings\""},
	{"import supply \"10-supply.ipynb\"", "cell 1 1:15 name: there is no folder to import a note from"},
	{"import . \"strings\"", "cell 1 1:1 refused: import . is not available in cells: packages are in scope under their own names"},
	{"import _ \"strings\"", "cell 1 1:1 refused: import _ is not available in cells: packages are in scope under their own names"},
	{"x := -300°C", "cell 1 1:6 literal: -300°C: the temperature is below absolute zero: −273.15 °C is the lowest"},
	{"a, b := 2V, 3\nx := a*b ± 1%", "cell 1 2:10 syntax: ± binds to the single value at its left, and a longer expression stands there: put brackets where they belong: (a · b) ± 1 % or a · (b ± 1 %)"},
	{"a, b := 2V, 3V\nx := a + b ± 1%", "cell 1 2:12 syntax: ± binds to the single value at its left, and a longer expression stands there: put brackets where they belong: (a + b) ± 1 % or a + (b ± 1 %)"},
	{"x := 1\nx ±= 1%", "cell 1 2:3 syntax: ± and = do not join: write x = x ± 1%"},
	// The collection of statements.
	{"y := z\nn := 0\nn++\nz := n*1V", "cell 1 1:1 name: z is used above the line that defines it, and that line cannot be moved up: it depends on n, which statements change: write this line below it"},
	{"x := c\na := 1V\na, c := 3V, 4V", "cell 1 1:1 name: c is used above the line that defines it, and that line cannot be moved up: it also changes a: write this line below it"},
	{"a := 1V\nx := d\na, d := 3V, 4V", "cell 1 2:1 name: d is used above the line that defines it, and that line cannot be moved up: it also changes a: write this line below it"},
	{"a, b := b, 3V", "cell 1 1:1 cycle: b is used in the line that defines it: define it in a line of its own, above"},
	{"var a [1 << 40]int", "cell 1 1:7 refused: an array of 1099511627776 elements is too large for a note: use a slice, and make it as long as it has to be"},
	{"type T struct{}\n---\nfunc (t *T) m() {}", "cell 2 1:13 foreign: m is a method of T, which this cell does not define: write it in the cell that defines the type, or write a function"},
	{"type A = Quantity\nfunc (a A) m() {}", "cell 1 2:12 foreign: m is a method of Quantity, which this cell does not define: write it in the cell that defines the type, or write a function"},
	{"const R = 5V", "cell 1 1:11 type: a quantity cannot be a constant: define it as a value, R := 5V"},
	{"x := 1\nx := 2", "cell 1 2:1 twice: x is defined twice in this cell: a name has one definition; write x = … to change it"},
	{"const x = 1\nfunc x() {}", "cell 1 2:6 twice: x is defined twice in this cell: a name has one definition; write x = … to change it"},
	{"func init() {}", "cell 1 1:6 refused: init cannot be defined in a cell: its statements run by themselves, write them without the function"},
	{"type t int\nvar t = 1", "cell 1 2:5 twice: t is defined twice in this cell: a name has one definition; write t = … to change it"},
	{"func f() int", "cell 1 1:1 syntax: func f has no body"},
	{"x := 1\nreturn", "cell 1 2:1 refused: return outside a function: a cell runs to its end; put the code in a function"},
	{"x := 1\nbreak", "cell 1 2:1 refused: break outside a loop"},
	{"continue", "cell 1 1:1 refused: continue outside a loop"},
	{"xs := []int{1}\nxs[0], y := 1, 2", "cell 1 2:1 syntax: only a name can be defined with :=: write = to change a part of something"},
	{"y := x\nx := 1\nfor range 3 { x++ }", "cell 1 1:1 name: x is used above the statements that give it its value: write this line below them"},
	// What is refused from the text alone.
	{"go f()", "cell 1 1:1 refused: go is not available in cells: a note is a calculation: call the function directly"},
	{"select {}", "cell 1 1:1 refused: select is not available in cells: a note is a calculation, it has no channels"},
	{"var c chan int", "cell 1 1:7 refused: channels are not available in cells: a note is a calculation: use a slice"},
	{"f := func() { c <- 1 }", "cell 1 1:15 refused: channels are not available in cells: a note is a calculation: use a slice"},
	{"n := 3\nx := n^2", "cell 1 2:7 refused: ^ is not a power in Go, it flips bits: write Pow(n, 2) for the power, or the mask in hexadecimal for exclusive or"},
	{"n := 3\nn ^= 2", "cell 1 2:3 refused: ^= is not a power in Go, it flips bits: write Pow(x, n), or a mask in hexadecimal for exclusive or"},
	// Names.
	{"x := 1\nlen := 3", "cell 1 2:1 name: len is Go's own, and a note cannot define it: choose another name"},
	{"math := 3", "cell 1 1:1 name: math is a package, and a note cannot define it: choose another name"},
	{"import \"os\"\nx := 1", "cell 1 1:8 refused: package os is not available in cells, because a note is a calculation: cells can use cmp, errors, fmt, math, math/bits, sort, strconv, strings, unicode, unicode/utf8, and without an import battery, capacitor, charger, divider, inverting, linear, loop, plot, powertree, preferred, protect, ripple, solar, stepdown, stepup, switching, table, thermal, units"},
	{"import \"unsafe\"", "cell 1 1:8 refused: package unsafe is not available in cells, because a note is a calculation: cells can use cmp, errors, fmt, math, math/bits, sort, strconv, strings, unicode, unicode/utf8, and without an import battery, capacitor, charger, divider, inverting, linear, loop, plot, powertree, preferred, protect, ripple, solar, stepdown, stepup, switching, table, thermal, units"},
	{"Vout := 5V\nx := 2*Vuot", "cell 1 2:8 name: Vuot is not defined: did you mean Vout?"},
	{"x := 2*nothingLikeIt", "cell 1 1:8 name: nothingLikeIt is not defined: define it in any cell of the note, nothingLikeIt := …"},
	{"x := 2V\nWhy(2*x)", "cell 1 2:1 refused: Why shows how a name of the note came about: let it stand by itself at the top level of a cell, with a name or a field of one: Why(Vout)"},
	{"x := 2V\nfor range 2 {\nWhy(x)\n}", "cell 1 3:1 refused: Why shows how a name of the note came about: let it stand by itself at the top level of a cell, with a name or a field of one: Why(Vout)"},
	{"x := Spread(1V)", "cell 1 1:6 type: Spread(1V) (no value) used as value"},
	{"x := math.Sqr(2)", "cell 1 1:11 name: package math has no Sqr: did you mean Sqrt?"},
	{"x := strings.NewReplacer(\"a\", \"b\")", "cell 1 1:14 refused: strings.NewReplacer is not available in cells, because it can make far more text than there is memory: use strings.ReplaceAll"},
	{"x := fmt.Sscan", "cell 1 1:10 refused: fmt.Sscan is not available in cells, because it writes into variables behind the note's back: use strconv, or units.Parse for a quantity"},
	{"x := 1\nx = x + y.z", "cell 1 2:9 name: y is not defined: define it in any cell of the note, y := …"},
	// A text with values of the note in it: each error stands at the marker, as the
	// person typed it, in quotes of either kind.
	{"Vout := 5V\nMarkdown(\"The rail is {Vuot}.\")", "cell 1 2:24 name: Vuot is not defined: did you mean Vout?"},
	{"Vout := 5V\n---\nMarkdown(`\n\tThe rail\n\tis {Vuot limits}.\n`)", "cell 2 3:6 name: Vuot is not defined: did you mean Vout?"},
	{"Vout := 5V\nMarkdown(\"a\" +\n  \"\\u03a9 \\\"Ω\\\" {Vuot}\")", "cell 1 3:18 name: Vuot is not defined: did you mean Vout?"},
	{"Vout := 5V\nMarkdown(\"in {Vout limit}\")", "cell 1 2:14 name: {Vout limit} is no marker: write {Vout} for its value, {Vout limits} for its limits"},
	{"type pair struct{ Peak, Mean Quantity }\ni := pair{2A, 1A}\nMarkdown(`{i.Peek}`)", "cell 1 3:14 type: i.Peek undefined (type pair has no field or method Peek): did you mean Peak?"},
	{"Vs := []Quantity{1V}\nMarkdown(`{Vs}`)", "cell 1 2:12 type: {Vs} is []Quantity, which is no single value: write a marker for one value in it: a field, {i.Peak}, or a place of a list, {rows[0]}"},
	{"type pair struct{ Peak Quantity }\ni := pair{2A}\n---\nMarkdown(`{i}`)", "cell 2 1:12 type: {i} is pair, which is no single value: write a marker for one value in it: a field, {i.Peak}, or a place of a list, {rows[0]}"},
	{"Vs := []Quantity{1V}\nMarkdown(`at {Vs[3]}`)", "cell 1 2:17 panic: index out of range [3] with length 1: indices run from 0 to one below the length; test with len first"},
	{"m := map[int]Quantity{0: 1V}\nMarkdown(`{m[0]}`)", "cell 1 2:12 name: {m[0]} is no value that the note defines: give it a name in a cell, and write that in the text"},
	{"Markdown(`{Pi}`)", "cell 1 1:12 name: {Pi} is no value that the note defines: give it a name in a cell, and write that in the text"},
	{"func f() Quantity { return 5V }\nMarkdown(`{f}`)", "cell 1 2:12 name: {f} is no value that the note defines: give it a name in a cell, and write that in the text"},
	{"type inner struct{ P Quantity }\ntype outer struct{ inner }\nz := outer{inner{1V}}\nMarkdown(`{z.inner.P} {z.P}`)", "cell 1 4:24 name: {z.P} is no value that the note defines: give it a name in a cell, and write that in the text"},
	{"Markdown(\" \\n\")", "cell 1 1:10 refused: Markdown has no text: write Markdown(`The rail is {Vout}, in all cases {Vout limits}.`)"},
	{"Markdown(`[a](javascript:x)`)", "cell 1 1:10 refused: a text cannot lead to javascript:x: write an address that starts with https:, or the text without the link"},
	{"for range 2 { Markdown(`x`) }", "cell 1 1:15 refused: Markdown shows a text where it stands: let it stand by itself at the top level of a cell: Markdown(`The rail is {Vout}, in all cases {Vout limits}.`)"},
	{"f := Markdown", "cell 1 1:6 refused: Markdown shows a text where it stands: let it stand by itself at the top level of a cell: Markdown(`The rail is {Vout}, in all cases {Vout limits}.`)"},
	{"t := \"x\"\nMarkdown(t)", "cell 1 2:1 refused: Markdown needs its text written out, so that the note knows the names in it before it computes: write it between quotes, with each value as a marker: Markdown(`The rail is {Vout}, in all cases {Vout limits}.`)"},
	{"Vout := 5V\nMarkdown(fmt.Sprint(\"is \", Vout))", "cell 1 2:1 refused: Markdown needs its text written out, so that the note knows the names in it before it computes: write it between quotes, with each value as a marker: Markdown(`The rail is {Vout}, in all cases {Vout limits}.`)"},
	{"Vout := nope\n---\nx := 1V\nMarkdown(`is {Vout}`)", "cell 1 1:9 name: nope is not defined: define it in any cell of the note, nope := …"},
	// What a cell says of the board.
	{"R := 1kΩ\nfor range 2 { Part(\"R1\", R) }", "cell 1 2:15 refused: Part says something of the board that is built: let it stand by itself at the top level of a cell: Part(\"R5\", Rtop)"},
	{"if 2V > 1V { Waive(\"A-1\", \"b\") }", "cell 1 1:14 refused: Waive says something of the board that is built: let it stand by itself at the top level of a cell: Waive(\"PWR-3\", \"why, who and when\")"},
	{"V := 1V\nfunc f() { Measured(V, 1V, \"a\") }", "cell 1 2:12 refused: Measured says something of the board that is built: let it stand by itself at the top level of a cell: Measured(Vout, 4.97V ± 5mV, \"date and instrument\")"},
	{"share := 80%\nDerate(\"voltage\", share)", "cell 1 2:1 refused: Derate is a rule for the whole note, which has to read it first: write its arguments out, the share from 1 % to 100 %: Derate(\"voltage\", 80%) or Derate(\"C\", \"voltage\", 80%)"},
	{"Derate(\"voltage\", 80)", "cell 1 1:1 refused: Derate is a rule for the whole note, which has to read it first: write its arguments out, the share from 1 % to 100 %: Derate(\"voltage\", 80%) or Derate(\"C\", \"voltage\", 80%)"},
	{"Derate(\"voltage\", 80%)\n---\nDerate(\"voltage\", 70%)", "cell 2 1:1 twice: the derating of voltage is stated twice: here, in cell 2, and in cell 1: a note has one such rule"},
	{"Derate(\"voltage\", 80%)\nDerate(\"voltage\", 70%)", "cell 1 2:1 twice: the derating of voltage is stated twice in cell 1: a note has one such rule"},
	{"Part(\"upper\", 1kΩ)", "cell 1 1:5 panic: \"upper\" is no reference of a part: write letters and a number, R5"},
	{"Rs := []Quantity{1kΩ}\nPart(\"R1\", Rs)", "cell 1 2:12 type: Rs is neither a value nor a text: a part has one: Part(\"R5\", Rtop) or Part(\"U1\", \"2 A step-down regulator\")"},
	{"Part(\"U1\", \" \")", "cell 1 1:5 panic: U1 has no value: its text is empty: write what it is, Part(\"U1\", \"2 A step-down regulator\")"},
	{"Waive(\"\", \"why\")", "cell 1 1:6 panic: Waive needs an identifier and a reason: write Waive(\"PWR-3\", \"why, who and when\")"},
	{"Vin := 5V\nCase(\"low\", Vin)", "cell 1 2:1 refused: Case needs its name, and inputs each with its value: write Case(\"cold start\", Vin, 18V)"},
	{"Vin := 5V\nCase(\"low\", 2*Vin, 4V)", "cell 1 2:13 refused: Case gives a value to 2*Vin, which is no name of the note: write the name of an input, Case(\"cold start\", Vin, 18V)"},
	{"Vin := 5V\nCase(\"low\", Vin, 4V, Vin, 3V)", "cell 1 2:22 refused: Case gives Vin two values: write one of them"},
	{"Vin := 5V\nCase(\"\", Vin, 4V)", "cell 1 2:5 panic: Case needs a name: write Case(\"cold start\", Vin, 18V)"},
	{"Vin := 5V\nVout := Vin/2\nCase(\"low\", Vout, 4V)", "cell 1 3:5 panic: Case gives a value to Vout, which is computed: write the input that it comes from"},
	{"Vin := 5V\nVout := Vin/2\n---\nCase(\"low\", Vout, 4V)", "cell 2 1:5 panic: Case gives a value to Vout, which is computed: write the input that it comes from"},
	{"Vin := 5V\nCase(\"low\", Vin, 4A)", "cell 1 2:5 panic: Case gives Vin, which is 5 V, the value 4 A: write a value of its kind"},
	{"Vin := 5V\nMeasured(Vin, 5V, \"\")", "cell 1 2:9 panic: Measured needs the date and the instrument: write Measured(Vout, 4.97V ± 5mV, \"date and instrument\")"},
	{"Vin := 5V\nMeasured(Vin, 5A, \"bench\")", "cell 1 2:9 panic: the reading is 5 A, and what is computed 5 V: both are of one kind"},
	// Needing oneself.
	{"type t struct { n int; t }", "cell 1 1:6 cycle: type t contains itself: use a pointer, *t, or a slice"},
	{"type a struct { b }\ntype b struct { a }", "cell 1 1:6 cycle: type a contains itself: use a pointer, *a, or a slice"},
	{"x := x + 1V", "cell 1 1:1 cycle: x needs itself: a definition cannot use the name that it defines"},
	{"a := b + 1V\nb := c\nc := a", "cell 1 1:1 cycle: a needs b needs c needs a: give one of them a value that does not depend on the other, or use Settle"},
	{"a := f()\nfunc f() int { return a }", "cell 1 1:1 cycle: a needs f needs a: give one of them a value that does not depend on the other, or use Settle"},
	{"a := b + 1V\n---\nb := c\n---\nc := a", "cell 1 1:6 cycle: the cells need each other: cell 1 needs b of cell 2, cell 2 needs c of cell 3, cell 3 needs a of cell 1: break the circle with a value that does not depend on the other, or put the loop into Settle"},
	// Other cells.
	{"U := 3V\n---\nx := 1\nU := 4V", "cell 2 2:1 twice: U is defined twice: here, in cell 2, and in cell 1: a name has one defining cell; rename one of them"},
	{"U := 3V\n---\nU = 4V", "cell 2 1:1 foreign: U belongs to cell 1, and only that cell may change it: define a new name here, or change the definition there"},
	{"U := 3V\n---\nU += 4V", "cell 2 1:1 foreign: U belongs to cell 1, and only that cell may change it: define a new name here, or change the definition there"},
	{"xs := []int{1}\n---\nxs[0]++", "cell 2 1:1 foreign: xs belongs to cell 1, and only that cell may change it: define a new name here, or change the definition there"},
	{"v := struct{ n int }{1}\n---\nv.n = 3", "cell 2 1:1 foreign: v belongs to cell 1, and only that cell may change it: define a new name here, or change the definition there"},
	{"U := 3V\n---\np := &U", "cell 2 1:6 foreign: U belongs to cell 1, and only that cell may change it: define a new name here, or change the definition there"},
	{"U := 3V\n---\nfor _, U = range []Quantity{1V} {\n}", "cell 2 1:8 foreign: U belongs to cell 1, and only that cell may change it: define a new name here, or change the definition there"},
	{"n := 0\nfunc next() int { n++; return n }\n---\nx := next()", "cell 2 1:10 panic: cannot assign to n: it belongs to cell 1: give the new value a name of its own [\"next, cell 1 line 2\"]"},
	{"math.Pi = 3", "cell 1 1:1 foreign: math.Pi belongs to package math and cannot be changed"},
	{"errors.ErrUnsupported = nil", "cell 1 1:1 foreign: errors.ErrUnsupported belongs to package errors and cannot be changed"},
	{"E96 = E24", "cell 1 1:1 foreign: E96 is built in and cannot be changed: define a name of your own"},
	{"Pi = 3V", "cell 1 1:1 foreign: Pi is built in and cannot be changed: define a name of your own"},
	{"5V = 3V", "cell 1 1:1 foreign: 5V is a literal: it can neither be changed nor pointed to: define a name for it first"},
	{"p := &5V", "cell 1 1:6 foreign: 5V is a literal: it can neither be changed nor pointed to: define a name for it first"},
	{"x := 2*U\n---\nU := 3V + 1A", "cell 1 1:8 waiting: cell 1 waits for U of cell 2, which has an error"},
	{"x := U + V\n---\nU := 3V + 1A\n---\nV := 3V + 1A", "cell 1 1:6 waiting: cell 1 waits for U of cell 2, which has an error; and for V of cell 3, which has an error"},
	{"x := 2*V\n---\nV := U\n---\nU := 3V + 1A", "cell 1 1:8 waiting: cell 1 waits for V of cell 2, which waits itself"},
	{"U := 3V\n---\nx := 1\nfunc f() { U = 2V }", "cell 2 2:12 foreign: U belongs to cell 1, and only that cell may change it: define a new name here, or change the definition there"},
	// What go/types says, reworded.
	{"x := 5V % 3V", "cell 1 1:6 type: quantities have no operator % (5V is a quantity)"},
	{"U := 5V\nx := U ^ U", "cell 1 2:6 refused: ^ is not a power in Go: write Pow(x, n)"},
	{"x := 5V << 2", "cell 1 1:6 type: shifted operand 5V (variable of type Quantity) must be integer"},
	{"x := !5V", "cell 1 1:7 type: quantities have no operator ! (5V is a quantity)"},
	{"a, b := 1, 2.5\nx := a + b", "cell 1 2:6 type: a + b (mismatched types int and float64): convert one side, float64(n)"},
	{"x := 1 + \"a\"", "cell 1 1:6 type: 1 + \"a\" (mismatched types untyped int and untyped string)"},
	{"x := 5V + \"a\"", "cell 1 1:6 type: 5V + \"a\" (mismatched types Quantity and untyped string)"},
	{"k := 2.5\nx := Sqrt(k)", "cell 1 2:11 type: cannot use k (variable of type float64) as Quantity value in argument to Sqrt: a plain number becomes a quantity by Quantity(x), a value with a unit is written 5V"},
	{"x := Sqrt(\"a\")", "cell 1 1:11 type: cannot use \"a\" (untyped string constant) as Quantity value in argument to Sqrt: a plain number becomes a quantity by Quantity(x), a value with a unit is written 5V"},
	{"x := \"a\" ± 1%", "cell 1 1:6 type: cannot use \"a\" (untyped string constant) as Quantity value beside ±: ± takes a value with a unit, a number, or a percentage, 10kΩ ± 1%"},
	{"x := 5V ± \"a\"", "cell 1 1:11 type: cannot use \"a\" (untyped string constant) as Quantity value beside ±: ± takes a value with a unit, a number, or a percentage, 10kΩ ± 1%"},
	{"Require()", "cell 1 1:9 type: not enough arguments in call to Require\n\thave ()\n\twant (bool, string): say what must hold, Require(Tj <= 125°C, \"the junction stays below its rating\")"},
	{"Require(5V > 3V)", "cell 1 1:16 type: not enough arguments in call to Require\n\thave (bool)\n\twant (bool, string): say what must hold, Require(Tj <= 125°C, \"the junction stays below its rating\")"},
	{"var n int = 2.5", "cell 1 1:13 type: cannot use 2.5 (untyped float constant) as int value in variable declaration (truncated): a whole number meets a fraction: write float64(n), or give the constant as 2.0"},
	{"a, b := 1", "cell 1 1:9 type: assignment mismatch: 2 variables but 1 value: the two sides of := need the same number of values"},
	{"x := nothing.Else", "cell 1 1:6 name: nothing is not defined: define it in any cell of the note, nothing := …"},
	{"x := 5V\nx.y = 3", "cell 1 2:3 type: x.y undefined (type Quantity has no field or method y)"},
	{"import \"nowhere\"", "cell 1 1:8 refused: package nowhere is not available in cells, because a note is a calculation: cells can use cmp, errors, fmt, math, math/bits, sort, strconv, strings, unicode, unicode/utf8, and without an import battery, capacitor, charger, divider, inverting, linear, loop, plot, powertree, preferred, protect, ripple, solar, stepdown, stepup, switching, table, thermal, units"},
	{"for x := range 5V {\n}", "cell 1 1:16 type: cannot range over 5V (variable of type Quantity)"},
	{"var tree powertree.Result\ntree", "cell 1 2:1 refused: the power tree cannot be drawn: the power tree is empty: make it with powertree.Compute"},
	// Tables. What they themselves say is tested in lib/table, what a folder
	// says in kernel/folder.
	{"t := Table(\"a.csv\")", "cell 1 1:6 panic: there is no folder to read a table from: write it into the cell, table.Text(\"…\")"},
	{"f := \"a.csv\"\nt := Table(f)", "cell 1 2:6 refused: Table needs the name of its file written out, so that the note knows its files before it computes: write Table(\"curve.csv\"), and a function or list of tables from several of these"},
	{"t := Table(\"a\" + \".csv\")", "cell 1 1:6 refused: Table needs the name of its file written out, so that the note knows its files before it computes: write Table(\"curve.csv\"), and a function or list of tables from several of these"},
	{"f := Table\nt := f(\"a.csv\")", "cell 1 1:6 refused: Table needs the name of its file written out, so that the note knows its files before it computes: write Table(\"curve.csv\"), and a function or list of tables from several of these"},
	{"t := table.Text(\"x, y\\n1, 2\")", "cell 1 1:6 panic: the table, line 1, column 1: the heading “x” has no unit: write x [V], or [1] as the unit of a plain number"},
	// What is refused when the types are known.
	{"x := 1/2*3V", "cell 1 1:7 refused: 1/2 is a division of whole numbers, which Go cuts to 0: write 0.5"},
	{"const n = 7\nx := n/2", "cell 1 2:7 refused: n/2 is a division of whole numbers, which Go cuts to 3: write 3.5"},
	{"x := 1V * (1000/7)", "cell 1 1:16 refused: 1000/7 is a division of whole numbers, which Go cuts to 142: write 1000.0/7"},
	{"const n = 2\nx := n/3*1V", "cell 1 2:7 refused: n/3 is a division of whole numbers, which Go cuts to 0: write float64(n)/3"},
	{"x := int(5V)", "cell 1 1:6 refused: int(5V) would drop the unit or the fraction: divide by a unit, take float64 of the ratio and say how to round: int(math.Round(float64(x/1V)))"},
	{"x := float32(5V)", "cell 1 1:6 refused: float32(5V) would drop the unit or the fraction: take float64 of a ratio without a unit, float64(x/1V)"},
	{"x := 5V²y", "cell 1 1:6 literal: 5V² is followed by y without a space or an operator: write an operator between them"},
	{"type volt Quantity", "cell 1 1:6 refused: a type cannot be made from Quantity: use Quantity itself, or a struct with a Quantity field"},
	{"q := 5V\nx := (*float64)(&q)", "cell 1 2:6 refused: a pointer to a quantity's number is not available in cells"},
	{"x := complex(1, 2)", "cell 1 1:6 refused: complex: complex numbers are not available in cells: work with magnitude and phase"},
	{"ok := 3V < 4V\nRequire(ok, \"low\")", "cell 1 2:9 refused: Require needs the comparison itself, and ok is only its outcome: write it out, Require(Tj <= 125°C, …) or Require(Within(x, lo, hi), …), so that the margin can be shown"},
	{"Require(3V < 4V && 1V < 2V, \"low\")", "cell 1 1:17 refused: Require takes one comparison, and && joins two: write one Require for each side, so that each shows its own margin"},
	{"Require(3V < 4V || 1V < 2V, \"low\")", "cell 1 1:17 refused: Require takes one comparison, and || joins two: compare with Min or Max of the two, so that there is one margin"},
	// Faults while it runs.
	{"x := 5V - 3A", "cell 1 1:9 dimension: cannot subtract 3 A (current) from 5 V (voltage): both sides need the same dimension"},
	{"x := 3.3V + 20mA", "cell 1 1:11 dimension: cannot add 3.3 V (voltage) and 20 mA (current): both sides need the same dimension"},
	{"x := 3V > 2", "cell 1 1:9 dimension: cannot compare 2 (number) with 3 V (voltage): write the number with its unit, as in 1V"},
	{"x := float64(5V)", "cell 1 1:13 dimension: cannot take 5 V (voltage) as a plain number: divide by a value of the same kind first, as in x/1V"},
	{"x := 5V / (1V - 1V)", "cell 1 1:9 dimension: cannot divide 5 V (voltage) by 0 V (voltage): the divisor is zero"},
	{"panic(\"no\")", "cell 1 1:6 panic: panic: no"},
	{"panic(5V)", "cell 1 1:6 panic: panic: 5 V"},
	{"xs := []int{1}\ni := 3\nx := xs[i]", "cell 1 3:8 panic: index out of range [3] with length 1: indices run from 0 to one below the length; test with len first"},
	{"xs := []int{1}\ni := 3\nx := xs[i:]", "cell 1 3:8 panic: slice bounds out of range [3:1]: indices run from 0 to one below the length; test with len first"},
	{"var m map[string]int\nm[\"a\"] = 1", "cell 1 2:2 panic: assignment to entry in nil map: make the map first, m := map[string]Quantity{}"},
	{"n := 0\nx := 1/n", "cell 1 2:7 panic: integer divide by zero: test the divisor first"},
	{"var p *struct{ n int }\nx := p.n", "cell 1 2:8 panic: invalid memory address or nil pointer dereference: the pointer, function or interface has no value yet; give it one first"},
	{"var f func() int\nx := f()", "cell 1 2:7 panic: invalid memory address or nil pointer dereference: the pointer, function or interface has no value yet; give it one first"},
	{"var a any = 1\nx := a.(string)", "cell 1 2:8 panic: interface conversion: interface {} is int, not string: ask with v, ok := x.(T) where the type is not sure"},
	{"x := thermal.Rise(2W, 0K/W)", "cell 1 1:6 panic: thermal.Rise: resistance is 0 K/W; it must be above 0 K/W: write its thermal resistance, such as 62 K/W"},
	{"x := Nearest(E96, -1kΩ)", "cell 1 1:13 dimension: cannot choose the nearest to −1 kΩ: it must be above zero: check the sign of the formula it comes from, or take Abs(x)"},
	{"func f(v Quantity) Quantity {\n\treturn v + 1A\n}\n---\nx := 1V\ny := f(x)", "cell 2 2:7 dimension: cannot add 1 V (voltage) and 1 A (current): both sides need the same dimension [\"f, cell 1 line 2\"]"},
	{"next := func() func() int { n := 0; return func() int { n++; return n } }()", "cell 1 1:1 refused: next is a function that changes n each time it is called: other cells would get results that depend on the order of calls: return the new value instead"},
	{"x := strconv.Atoi(\"k\")", "cell 1 1:6 panic: strconv.Atoi: parsing \"k\": invalid syntax"},
	// Limits that are none.
	{"x := Band(5V, 4V, 3V)", "cell 1 1:10 dimension: the values of Band are out of order: 5 V, 4 V, 3 V: write the smallest first and the largest last"},
	{"x := Range(1V, 2V, 3A)", "cell 1 1:11 dimension: cannot compare 3 A (current) with 2 V (voltage): both sides need the same dimension"},
	{"x := Range(1V, 2V, 3V) ± 1%", "cell 1 1:24 dimension: cannot use ± 1 % (number) on 2 V (voltage): a Range has its ends already"},
	{"a := 5V ± 1%\nx := Range(1V, a, 9V)", "cell 1 2:11 dimension: cannot use 5 V (voltage) in Range: it has spread of its own: take High(x), Low(x) or Nominal(x)"},
	{"x := 10kΩ ± 5V", "cell 1 1:11 dimension: cannot use ± 5 V (voltage) on 10 kΩ (resistance): the tolerance is a percentage or a value of the same kind"},
	{"x := 25°C ± 5%", "cell 1 1:11 dimension: cannot use ± 5 % (number) on 25 °C (temperature on the scale): a percentage of a point on the scale means nothing: write a difference, 25°C ± 5K"},
	{"x := 5% ± 1%", "cell 1 1:9 dimension: cannot use ± 1 % (number) on 5 % (number): a share of a share is ambiguous: write Band(min, typ, max)"},
	{"x := 10kΩ ± -1%", "cell 1 1:11 dimension: cannot use ± −1 % (number) on 10 kΩ (resistance): a tolerance is not negative"},
	{"x := 10kΩ ± 120%", "cell 1 1:11 dimension: cannot use ± 120 % on 10 kΩ (resistance): such a part could be zero or negative"},
	{"x := 10kΩ ± (1kΩ ± 1%)", "cell 1 1:11 dimension: cannot use ± 1 kΩ (resistance) on 10 kΩ (resistance): the tolerance has spread of its own: take Nominal(t)"},
	{"x := 10kΩ +- 5%", "cell 1 1:11 syntax: +- is no tolerance: Go reads it as plus a negative value: write ± or +/-, as in 10kΩ ± 1%; with a space, a + -b, for the sum"},
	{"R, tol := 10kΩ, 5%\nx := R +-tol", "cell 1 2:8 syntax: +- is no tolerance: Go reads it as plus a negative value: write ± or +/-, as in 10kΩ ± 1%; with a space, a + -b, for the sum"},
	{"x := 10kΩ+-5%", "cell 1 1:10 syntax: +- is no tolerance: Go reads it as plus a negative value: write ± or +/-, as in 10kΩ ± 1%; with a space, a + -b, for the sum"},
	{"x := 2*Normal(1%, 3)", "cell 1 1:7 dimension: cannot compute with the tolerance 1 %: it says how a tolerance counts, and stands behind ±"},
	{"t := Drift(1%)\nx := 1V + t", "cell 1 2:9 dimension: cannot compute with the tolerance 1 %: it says how a tolerance counts, and stands behind ±"},
	{"x := 10kΩ ± 100ppm/K", "cell 1 1:11 dimension: cannot use ± 100 ppm/K (temperature coefficient) on 10 kΩ (resistance): say which temperature it goes with: ± Tempco(100ppm/K, T), where T is the temperature that all parts of the board share"},
	{"x := 10kΩ ± Tempco(100ppm, 25°C)", "cell 1 1:19 dimension: cannot use 100 ppm (number) as a temperature coefficient: write its limit per kelvin, as in 100ppm/K"},
	{"x := 10kΩ ± Tempco(100ppm/K, 25K)", "cell 1 1:19 dimension: cannot use Tempco at 25 K (temperature difference): write Tempco(100ppm/K, T), where T is a point on the temperature scale"},
	{"x := 10kΩ ± Tempco(1V/K, 85°C)", "cell 1 1:11 dimension: cannot use ± 60 V (voltage) on 10 kΩ (resistance): the tolerance is a percentage or a value of the same kind"},
	{"x := Typical(10kΩ ± 1%)", "cell 1 1:13 dimension: cannot call 10 kΩ (resistance) typical: it has limits"},
	{"x := Another(2*(1kΩ ± 1%))", "cell 1 1:13 dimension: cannot take Another of 2 kΩ (resistance): it is computed from several parts: write its definition again with Another of each"},
	{"type div struct { top, bot Quantity }\nd := div{1kΩ ± 1%, 1kΩ}\nx := Another(d)", "cell 1 3:14 type: cannot use d (variable of struct type div) as Quantity value in argument to Another: a plain number becomes a quantity by Quantity(x), a value with a unit is written 5V"},
	{"x := AtLeast(E24, 10kΩ ± 1%)", "cell 1 1:13 dimension: AtLeast(E24, x) got x with spread, nominally 10 kΩ: a limit needs one value: say which end counts: AtLeast(E24, High(x)), Low(x) or Nominal(x)"},
	// Cases that have no value.
	{"R := 1kΩ ± 1%\nx := 5V/(R - 990Ω)", "cell 1 2:8 dimension: cannot divide 5 V (voltage) by 10 Ω (resistance): the divisor is zero where R is 990 Ω"},
	{"R := 1kΩ ± 1%\nx := 5V/(R - 1.005kΩ)", "cell 1 2:8 dimension: cannot divide 5 V (voltage) by −5 Ω (resistance): the divisor is zero where R is 1.005 kΩ"},
	{"U := 5V ± 10%\nx := Sqrt(U - 5V)", "cell 1 2:10 dimension: cannot take Sqrt of 0 V (voltage): the argument is negative where U is 4.5 V"},
	{"U := 5V ± 10%\n---\nx := Ln((U - 4.5V)/1V)", "cell 2 1:8 dimension: cannot take Ln of 0.5 (number): the argument is not positive where U is 4.5 V"},
	{"x := Band(1V, 2V, 3V)\ny := Pow(x - 2V, 0.5)", "cell 1 2:9 dimension: cannot take Pow of 0 V (voltage): a negative number has whole powers only where x is 1 V"},
	{"Vin := Range(4V, 6V, 8V)\nVout := 5V\nif Vin < 5.5V {\n\tVout = Sqrt(Vin - 5V)*Sqrt(1V)\n}", "cell 1 4:13 dimension: cannot take Sqrt of −1 V (voltage), where Vin is 4 V: the argument is negative"},
	{endlessParts, "cell 1 1:1 refused: the parts of the cell differ from case to case without end: state the parts outside of the decision"},
	// Figures.
	{"Trend(1, 2, 3, 4)", "cell 1 1:7 refused: what Trend draws is a name of the note, or a field of one, and 1 is none: give it a name in a cell above, and write Trend(y, x, from, to) with the two names"},
	{"x := 1V\n---\ny := x*2\n---\nTrend(2*y, x, 0V, 1V)", "cell 3 1:7 refused: what Trend draws is a name of the note, or a field of one, and 2*y is none: give it a name in a cell above, and write Trend(y, x, from, to) with the two names"},
	{"x := 1V\n---\ny := x*2\n---\nTrendLog(y, 2V, 1V, 2V)", "cell 3 1:13 refused: what TrendLog draws it over is a name of the note, and 2V is none: give it a name in a cell above, and write TrendLog(y, x, from, to) with the two names"},
	{"x := 1V\n---\ny := x*2\n---\nfor _, k := range []Quantity{1V, 2V} {\n\t_ = Trend(k, x, 0V, 1V)\n}", "cell 3 2:12 refused: what Trend draws is a name of the note, or a field of one, and k is none: give it a name in a cell above, and write Trend(y, x, from, to) with the two names"},
	{"x := 1V\n---\ny := x*2\nTrend(y, x, 0V, 1V)", "cell 2 2:7 refused: Trend computes other cells anew, and y is defined in its own: put Trend into a cell of its own"},
	{"x := 1V\nz := 1V\n---\ny := z*2\n---\nTrend(y, x, 0V, 1V)", "cell 3 1:6 panic: y does not depend on x: a Trend computes anew what lies between an input and a value that comes from it"},
	{"x := 1V\n---\ny := x*2\n---\nz := y*2\n---\nTrend(z, y, 0V, 1V)", "cell 4 1:6 panic: y is computed in cell 2, and a Trend moves an input: write the input that it comes from"},
	{"x := 1V\n---\ny := x*2\n---\nTrend(y, x, 0A, 1A)", "cell 3 1:6 panic: Trend goes from 0 A to 1 A over a name that is 1 V: write both ends in its unit"},
	{"x := 1V\n---\ny := x*2\n---\nTrend(y, x, 1V, 0V)", "cell 3 1:6 panic: Trend cannot draw this: the steps go from 1 V to 0 V: write the smaller end first"},
	{"x := 1V\n---\ny := x*2\n---\nTrendLog(y, x, 0V, 1V)", "cell 3 1:9 panic: TrendLog cannot draw this: the first step is 0 V; a logarithmic axis has no place for it: start above zero"},
	{"x := 1V\n---\ny := 1A*1V/(x - 2V)\n---\nTrend(y, x, 1V, 3V)", "cell 3 1:6 panic: y cannot be computed where x is 2 V: cell 2, line 1: cannot divide 1 W (power) by 0 V (voltage): the divisor is zero"},
	{"x := 1V\n---\ny := x*2\nfunc f() plot.Figure { return plot.Figure{} }\n---\nfunc g() plot.Figure { return Trend(y, x, 0V, 1V) }\n---\ng()", "cell 4 1:2 panic: Trend stands in a function that another cell calls: write it where its picture is to be: it takes names of the note [\"g, cell 3 line 1\"]"},
	{"plot.Figure{Title: \"a\"}", "cell 1 1:1 refused: the figure cannot be drawn: the figure has no series: write Series: []plot.Series{…}, each made with plot.Data"},
	{"x := Plot(1V)", "cell 1 1:10 dimension: Plot cannot draw its argument 1: it takes series, made with plot.Data, and figures, made with Curve and Trend"},
	{"Plot(plot.Data(\"a\", nil, nil))", "cell 1 1:5 dimension: Plot has nothing to draw: plot.Data: series \"a\" needs at least two points and has 0: give X and Y of each"},
	{"x := Plot()", "cell 1 1:10 dimension: Plot cannot draw this: the figure has no series: write Series: []plot.Series{…}, each made with plot.Data"},
	{"x := Curve(\"a\", func(x Quantity) Quantity { return x }, 0A, 1V)", "cell 1 1:11 dimension: Curve cannot draw this: the steps go from 0 A to 1 V: give both ends in the same unit"},
	// Settings of the whole note.
	{"R := 10kΩ ± 1%\nV := Range(1V, 2V, 3V)\nd := R\nif V > 2.5V { d = Another(R) }", "cell 1 4:26 panic: Another cannot be taken where only some of the cases come, where V is 3 V, R is 9.9 kΩ: state the part before the decision"},
	{"V := Range(1V, 2V, 3V)\nk := V\nif k > 2.5V { k = 2.5V }\nh := High(k)", "cell 1 4:10 panic: High cannot be taken in the cell in which the cases of its value part: put it into a cell of its own: there every case is known"},
	{"Boards(50)", "cell 1 1:1 refused: Boards holds for the whole note, which has to read it first: let it stand by itself at the top level of a cell, with a number from 100 to 200000"},
	{"for range 3 {\n\tPartsAreNormal(3)\n}", "cell 1 2:2 refused: PartsAreNormal holds for the whole note, which has to read it first: let it stand by itself at the top level of a cell, with a number from 0.5 to 10"},
	{"Boards(1000)\nBoards(2000)", "cell 1 2:1 twice: Boards is set twice in cell 1: a note has one such setting"},
	{"Boards(1000)\n---\nBoards(2000)", "cell 2 1:1 twice: Boards is set here, in cell 2, and in cell 1: a note has one such setting"},
}

// endlessParts states a part in each of a dozen decisions, each of which only
// the parts of the one before it reach.
var endlessParts = func() string {
	code, end := "p0 := 1V ± 10%\nx := 0V\n", "x = p12\n"
	for i := range 12 {
		code += fmt.Sprintf("if p%d > 1.05V {\np%d := 1V ± 10%%\n", i, i+1)
		end += "}\n"
	}
	return code + end
}()

func TestMessages(t *testing.T) {
	t.Parallel()
	for _, c := range messages {
		if got := firstMessage(c.cells); got != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.cells, got, c.want)
		}
	}
}

// firstMessage computes cells and gives their first error with its place.
func firstMessage(cells string) string {
	n := note.New(note.Options{World: world})
	n.Set(sources(strings.Split(cells, "\n---\n")...))
	return message(firstError(n.Run(context.Background())))
}

func message(e *cell.Error) string {
	if e == nil {
		return "no error"
	}
	s := fmt.Sprintf("%s %d:%d %s: %s", e.Cell, e.Line, e.Column, e.Code, e)
	if len(e.Frames) > 0 {
		s += fmt.Sprintf(" %q", e.Frames)
	}
	return s
}

// settings are the messages about a what-if, with the note that it is asked of.
var settings = []struct{ cells, set, want string }{
	{"Vin := 9V", "Vinn=5V", "--set Vinn: the note does not define Vinn: did you mean Vin?"},
	{"Vin := 9V", "other=5V", "--set other: the note does not define other"},
	{"const k = 3", "k=4", "cell 1 0:0 name: --set k: k is a const, not a value that can be set: define it with :="},
	{"import a \"a.ipynb\"\nx := 1V", "a=4", "cell 1 0:0 name: --set a: a is a note, not a value that can be set: set a name in it, --set a.NAME=VALUE"},
	{"func f() {}", "f=4", "cell 1 0:0 name: --set f: f is a func, not a value that can be set: define it with :="},
	{"a, b := 1, 2", "a=4", "cell 1 0:0 name: --set a: a is defined together with other names and cannot be set alone"},
	{"Vin := 9V", "Vin=10k", "cell 1 0:0 name: --set Vin=10k: 10k has a prefix without a unit: write 10kΩ (10kohm), 10kHz or 10kV"},
	{"Vin := 9V", "Vin=5V 6V", "cell 1 0:0 name: --set Vin=5V 6V: this is no expression: write a value as in a cell, 9V"},
	{"Vin := 9V", "Vin=2*3V ± 1%", "cell 1 0:0 name: --set Vin=2*3V ± 1%: ± binds to the single value at its left, and a longer expression stands there: put brackets where they belong: (a · b) ± 1 % or a · (b ± 1 %)"},
	{"Vin := 9V", "Vin=1V; Vin++", "cell 1 0:0 name: --set Vin=1V; Vin++: this is no expression: write a value as in a cell, 9V"},
	{"Vin := 9V\nVin += 1V", "Vin=5V", "cell 1 0:0 name: --set Vin: statements change Vin after its definition, so setting it would have no effect: set what it is computed from"},
	{"Vin := 9V", "Vin=-300°C", "cell 1 0:0 name: --set Vin=-300°C: -300°C: the temperature is below absolute zero: −273.15 °C is the lowest"},
	{"Vin := 9V", "Vin=9V }; func f() { _ = 3", "cell 1 0:0 name: --set Vin=9V }; func f() { _ = 3: this is no expression: write a value as in a cell, 9V"},
	{"Vin := 9V", "Vin=1/2", "cell 1 1:1 refused: --set Vin: 1/2 is a division of whole numbers, which Go cuts to 0: write 0.5"},
	{"Vin := 9V", "Vin=Vuot", "cell 1 1:1 name: --set Vin: Vuot is not defined: define it in any cell of the note, Vuot := …"},
	{"Vin := 9V\nx := Vin + 1V", "Vin=2A", "cell 1 2:10 dimension: cannot add 2 A (current) and 1 V (voltage): both sides need the same dimension"},
}

func TestMessagesOfSettings(t *testing.T) {
	t.Parallel()
	for _, c := range settings {
		if got := settingMessage(c.cells, c.set); got != c.want {
			t.Errorf("%s, --set %s\n got %s\nwant %s", c.cells, c.set, got, c.want)
		}
	}
}

func settingMessage(cells, set string) string {
	n := note.New(note.Options{World: world})
	n.Set(sources(strings.Split(cells, "\n---\n")...))
	n.Run(context.Background())
	name, text, _ := strings.Cut(set, "=")
	if err := n.WhatIf(map[string]string{name: text}, false); err != nil {
		return err.Error()
	}
	return message(firstError(n.Run(context.Background())))
}

// derivations are the messages of Why.
var derivations = []struct{ cells, name, want string }{
	{"Vin := 9V", "Vinn", "the note does not define Vinn: did you mean Vin?"},
	{"Vin := 9V", "other", "the note does not define other"},
	{"Vin := 9V\nRequire(Vin > 5V, \"PWR-3: enough\")", "PWR-4", "the note does not define PWR-4: did you mean PWR-3?"},
	{"Vin := 9V\nRequire(Vin > 5V, \"LIM-1.2: enough\")", "LIM-1.3", "the note does not define LIM-1.3: did you mean LIM-1.2?"},
	{"Vin := 9V\nPart(\"R5\", 10kΩ)", "R6", "the note does not define R6: did you mean R5?"},
	{"import a \"a.ipynb\"", "a", "a is a note: ask for a name in it, a.NAME"},
	{"Vin := 9V", "Vin.Peak", "Vin has no field Peak: it is a single value"},
	{"d := divider.Plain(12V, 10kΩ, 3.3kΩ)", "d.Ratios", "d has no field Ratios; it has Current, Output, Ratio, Resistance, UpperPower, LowerPower, Power"},
	{"Vin := 9V + 1A", "Vin", "Vin has no value: cell 1, line 1: cannot add 9 V (voltage) and 1 A (current): both sides need the same dimension"},
}

// stopped are the messages of a run that was cut short.
var stopped = []struct{ reason, want string }{
	{"interrupted while it runs", "cell 1 4:2 stopped: the cell was interrupted"},
	{"interrupted before", "cell 1 1:1 stopped: the cell was not run: the run was interrupted"},
	{"out of time while it runs", "cell 1 4:2 limit: the cell did not finish in the time allowed: look for a loop that does not end, or allow more time with --timeout"},
	{"out of time before", "cell 1 1:1 stopped: the cell was not run: the time allowed was over before its turn"},
	{"too many steps", "cell 1 4:2 limit: the cell ran too long: its limit of steps is reached: look for a loop that does not end"},
}

func TestMessagesOfWhy(t *testing.T) {
	t.Parallel()
	for _, c := range derivations {
		n, _ := compute(t, strings.Split(c.cells, "\n---\n")...)
		if _, err := n.Why(context.Background(), c.name, note.WhyOptions{}); err == nil || err.Error() != c.want {
			t.Errorf("%s of %s\n got %v\nwant %s", c.name, c.cells, err, c.want)
		}
	}
	n := note.New(note.Options{World: world})
	n.Put(note.Source{ID: "a", Code: "x := 1V"})
	if _, err := n.Why(context.Background(), "x", note.WhyOptions{}); err == nil || err.Error() != "the note does not define x" {
		t.Errorf("a note that was not run: %v", err)
	}
}

func TestMessagesOfStops(t *testing.T) {
	t.Parallel()
	for _, c := range stopped {
		ctx, cancel := context.WithCancel(context.Background())
		options := note.Options{World: world}
		switch c.reason {
		case "interrupted while it runs":
			options.Printed = func(_, _ string) { cancel() }
		case "interrupted before":
			cancel()
		case "out of time while it runs":
			options.CellTime = 20 * time.Millisecond
		case "out of time before":
			ctx, cancel = context.WithDeadline(ctx, time.Now().Add(-time.Second))
		case "too many steps":
			options.Limits = exec.Limits{Steps: 10_000}
		}
		n := note.New(options)
		n.Set(sources("n := 0\nfmt.Println(n)\nfor {\n\tn++\n}"))
		got := message(firstError(n.Run(ctx)))
		cancel()
		if got != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.reason, got, c.want)
		}
	}
}

// notices are what is right but may surprise.
var notices = []struct{ cells, want string }{
	{"a := 1\nRange := 3", "line 2: Range hides what is built in under this name, in the whole note"},
	{"x := make([]int, 1500)", "line 0: x has 1500 items: to see all, print them in parts, each in a cell of its own"},
	{"make([]int, 1500)", "line 0: this is the beginning of 1500 items: to see all, print them in parts, each in a cell of its own"},
	{"x := strings.Repeat(\"ab\", 1<<20)", "line 0: x has 2 MB of text: to see all, print it in parts, each in a cell of its own"},
	{"W := 3\nx := 62°C/W*2W", "line 2: in 62°C/W, W is the unit, not the name W: put spaces around the operator to calculate with the name"},
	{"W := 3\n---\nx := 62°C/W*2W", "line 1: in 62°C/W, W is the unit, not the name W: put spaces around the operator to calculate with the name"},
	{"Vin := Range(4V, 6V, 8V)\nVout := 5V\nif Vin < Vout {\n\tVout = Vin\n}", "line 3: Vin < Vout comes out otherwise where Vin is 4 V: the cell is computed case by case"},
	{"Vin := Range(4V, 6V, 8V)\n\ncells := 2\nif Vin > 5V {\n\tcells = 3\n}", "line 3: in cells, a plain number or truth value is not alike in all cases, and is shown as it is nominally; line 4: Vin > 5V comes out otherwise where Vin is 4 V: the cell is computed case by case"},
	{"Vin := Range(4V, 6V, 8V)\nx := Vin.SI()", "line 2: the bare number of 6 V comes out otherwise where Vin is 4 V: the cell is computed case by case; line 2: in x, a plain number or truth value is not alike in all cases, and is shown as it is nominally"},
	{"Part(\"R1\", 12V)\nPart(\"r2\", 1kΩ)\nPart(\"C1\", 1Ω)\nPart(\"L1\", 1H)\nPart(\"F1\", 2A)\nPart(\"F2\", 90V)\nPart(\"RT1\", 10kΩ)\nPart(\"BT1\", 3Ah)\nPart(\"RV1\", 30V)\nPart(\"Q1\", 3V)\nPart(\"c9\", 4)",
		"line 1: R1 is 12 V, and R stands for resistors: write a resistance in Ω, or the letters of what it is; line 3: C1 is 1 Ω, and C stands for capacitors: write a capacitance in F, or the letters of what it is; line 11: c9 is 4, and c stands for capacitors: write a capacitance in F, or the letters of what it is"},
	{"Part(\"L1\", 1F)\nPart(\"F1\", 1Ω)\nPart(\"BT1\", 1Ω)",
		"line 1: L1 is 1 F, and L stands for inductors: write an inductance in H, or the letters of what it is; line 2: F1 is 1 Ω, and F stands for fuses: write a current in A, or the letters of what it is; line 3: BT1 is 1 Ω, and BT stands for batteries: write a voltage in V or a charge in mAh, or the letters of what it is"},
	{"Part(\"R1\", \"10 kΩ\")\nPart(\"R2\", \"4k7\")\nPart(\"R3\", \"trimmer, 10 turns\")\nPart(\"U1\", \"5 V\")",
		"line 1: R1 has a value that is written as a text, “10 kΩ”: without the quotes, ratings and lists of parts are held against it; line 2: R2 has a value that is written as a text, “4k7”: without the quotes, ratings and lists of parts are held against it"},
	{"s := plot.Data(\"a\", []Quantity{1A, 2A}, []Quantity{1V, 2V})", "s: series, 2 points"},
	{"s := []plot.Series{plot.Data(\"a\", []Quantity{1A, 2A}, []Quantity{1V, 2V})}", "s: list of 1 series, 2 points"},
	{"f := func(x Quantity) Quantity { return x*2 }\ng := Curve(\"a\", f, 0A, 1A)\nh := Plot(g, Curve(\"b\", f, 0A, 1A))", "g: figure, 1 curve, 61 points; h: figure, 2 curves, 122 points"},
	{"x := 1V\n---\ny := x*2\n---\ng := Trend(y, x, 0V, 1V)", "g: figure, y over x, 61 points"},
	{"Vin := Range(4V, 6V, 8V)\nRequire(Vin != 5V, \"not five\")", "fails where both sides are equal, somewhere between Vin is 4 V and Vin is 8 V"},
}

func TestNotices(t *testing.T) {
	t.Parallel()
	for _, c := range notices {
		_, rs := compute(t, strings.Split(c.cells, "\n---\n")...)
		var got []string
		for _, r := range rs {
			for _, i := range r.Items {
				switch x := i.(type) {
				case *note.Notice:
					got = append(got, fmt.Sprintf("line %d: %s", x.Line, x.Text))
				case *note.Requirement:
					got = append(got, "fails where "+x.FailsWhere)
				case *note.Entry:
					if x.Form == note.FormMade && !strings.HasPrefix(x.Value.Type, "func") {
						got = append(got, x.Name+": "+x.Value.Text)
					}
				}
			}
		}
		if strings.Join(got, "; ") != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.cells, strings.Join(got, "; "), c.want)
		}
	}
}

// unsaid holds texts in the sources that no cell of the tables shows.
var unsaid = map[string]string{
	"\n… cut: the cell prints more than ":                             "TestEndlessPrinting has it",
	" MB; to see all, print it in parts, each in a cell of its own\n": "TestEndlessPrinting has it",
	"other statements change ":                                        "the use is refused first; a safeguard for needs through functions",
	"internal error: %v":                                              "our own mistakes; FuzzCell holds that there are none", "internal error while building the cell: %v": "the same",
	"this is a mistake of the program, not of the note; please report the cell":                   "the same",
	"%s is not computed: with the notes and blocks in its imports the note comes to more than %d": "TestBlocksAreBounded has it",
	"a struct of a note that is imported cannot embed a generic type":                             "TestImportTrouble has it", "give the field a name": "the same",
	"%s imports %s: notes cannot import each other; move what both need into a third": "TestImportTrouble has it", ", which imports ": "the same",
	"the cell's brackets and braces do not match":           "the split finds them first; a safeguard",
	"a name needs itself":                                   "the names are known; a safeguard",
	"%s has no value: run the note first":                   "a note that was not run defines nothing yet",
	"another cell":                                          "the owner is known; a safeguard",
	"this is no expression: write a value as in a cell, 9V": "CheckExpression has a test of its own in kernel/cell", "this is no expression": "the same",
	"what-if: set to ": "a source that is shown, no message",
	"its own code":     "a frame of an error",
	"at least":         "the rule of a choice", "at most": "the rule of a choice",
	"cell: prefixes differ in length":                                                   "a mistake in the source",
	"the run got to the call that was probed":                                           "ends a run that is asked for one value only; nobody sees it",
	"%s is no quantity in the cases that are computed":                                  "a name has one type; a safeguard",
	"a requirement is not reached in the cases that are computed":                       "what its nominal case does not reach is shown as it is; a safeguard",
	"the call is not reached in the cases that are computed":                            "the call was reached in the ordinary run; a safeguard",
	"implicit assignment to unexported field":                                           "looked for in what go/types says",
	"%s shares its expression with other names, and is not moved to see what that does": "TestTouchesRefusals has it",
	"%s is no quantity, and is not moved to see what that does":                         "the same",
	"%s is %s, and no name of the note: define a name for it to see what depends on it": "the same", "%s is a requirement, on which nothing depends: ask for what it comes from, without --uses": "the same",
	"1 K": "a step", "1 dB": "a step", "(%s) - %vdB": "code", "(%s) + %vdB": "code", "(%s) * %v": "code", "(%s) - %vK": "code", "(%s) + %vK": "code",
	"a margin": "what could not be taken, in a message that numbers of quantities never give",
	"Trend takes names that cells define: %s and %s": "the check refuses it first; a safeguard",
	"%s at %d in %s: %s":                             "a key",
	"it is no quantity there":                        "a field has one type; a safeguard", "it has no such field there": "the same",
	"power tree": "what is shown of a name, no message", "power tree, %d rails, %s from the source at most, in %s": "the same",
	", sha256 ": "where a value comes from, no message",
	" is not among those that the note names": "every file that a cell names is looked at before; a safeguard", "the file ": "the same",
	" holds: nothing is waived": "TestWaivers has it", "several requirements have the identifier ": "the same", ", and nothing is waived: give each its own": "the same", "the note has no requirement ": "the same",
	"margin, worst": "the head of a table", "as designed": "the same", "not computed": "in the table", "may be inside": "a verdict",
	// What completion and inspection show beside names.
	" with other inputs": "TestImportIsCompleted has it",
	"no value: see ":     "TestComplete has it", "no value: the cell has not run": "a cell that was computed has an error or values; a safeguard",
	"first second third fourth fifth sixth seventh eighth ninth tenth": "TestNamesOfSources has it", "no. %d": "the same",
	"its limits in all cases":        "TestComplete has it",
	"local to the function or block": "TestEngineInspects in kernel/jupyter has it",
	"no unit":                        "looked for in the documentation of lib", "Where it holds": "the same",
	"\n\t// contains filtered or unexported fields\n": "looked for in what go/doc says",
	// Code that is made up.
	"_ = ": "code", "_ = (": "code", "package note;": "code", "package note;           ": "code", "package note;func ": "code", "package note; func ": "code",
	"[T any](v T, err error) T { if err != nil { panic(err) }; return v }": "code",
}

// TestMessagesAreAllHere holds that the tables name every message: each text
// with a space in the sources stands in one of them or in unsaid.
func TestMessagesAreAllHere(t *testing.T) {
	t.Parallel()
	var all strings.Builder
	for _, c := range messages {
		all.WriteString(c.want + "\n")
	}
	for _, c := range blocks {
		all.WriteString(c.want + "\n")
	}
	for _, c := range imports {
		all.WriteString(c.want + "\n")
	}
	for _, c := range settings {
		all.WriteString(c.want + "\n")
	}
	for _, c := range derivations {
		all.WriteString(c.want + "\n")
	}
	for _, c := range stopped {
		all.WriteString(c.want + "\n")
	}
	for _, c := range notices {
		all.WriteString(c.want + "\n")
	}
	used := map[string]bool{}
	for text, place := range textsOfSources(t) {
		if unsaid[text] != "" {
			used[text] = true
			continue
		}
		for _, part := range verbs.Split(text, -1) {
			if !strings.Contains(all.String(), part) {
				t.Errorf("%s: no table has %q", place, text)
				break
			}
		}
	}
	for text := range unsaid {
		if !used[text] {
			t.Errorf("the sources have no %q any more", text)
		}
	}
}

var verbs = regexp.MustCompile(`%[a-z]`)

// textsOfSources finds the string literals of kernel/cell and kernel/note that
// are made of several words, and where they stand.
func textsOfSources(t *testing.T) map[string]string {
	t.Helper()
	found := map[string]string{}
	for _, pattern := range []string{"*.go", "../cell/*.go"} {
		files, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range files {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			fset := token.NewFileSet()
			f, err := parser.ParseFile(fset, name, nil, parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			ast.Inspect(f, func(n ast.Node) bool {
				if c, ok := n.(*ast.CallExpr); ok && looks(c) {
					return false
				}
				if b, ok := n.(*ast.BasicLit); ok && b.Kind == token.STRING {
					text, err := strconv.Unquote(b.Value)
					if err == nil && strings.Contains(strings.TrimSpace(text), " ") {
						found[text] = fset.Position(b.Pos()).String()
					}
				}
				return true
			})
		}
	}
	if len(found) < 100 {
		t.Fatalf("the sources have %d texts", len(found))
	}
	return found
}

// looks reports whether a call only looks for a text in another.
func looks(c *ast.CallExpr) bool {
	f, ok := c.Fun.(*ast.SelectorExpr)
	if !ok {
		return false
	}
	switch f.Sel.Name {
	case "MustCompile", "Contains", "HasPrefix", "HasSuffix", "TrimPrefix", "CutPrefix", "Index", "ReplaceAllString":
		return true
	}
	return false
}

// What the parser misreads behind its first error of a line is no error of its
// own: "20 mA" was also said to lack a closing bracket.
func TestOneMistakeIsOneError(t *testing.T) {
	t.Parallel()
	_, results := compute(t, "J := 20 mA")
	if got := results[0].Errors; len(got) != 1 {
		t.Errorf("%v, want one error", got)
	}
}
