package allow

type reason struct{ why, instead string }

// refused lists what is kept from cells although its signature alone would
// let it pass, or where the reason deserves better words than the signature
// gives. Keys are import paths with the name, as package documentation has them.
var refused = map[string]reason{
	"fmt.Fprint":   {"writes to a stream", "use fmt.Sprint, or fmt.Print to show text below the cell"},
	"fmt.Fprintf":  {"writes to a stream", "use fmt.Sprintf, or fmt.Printf to show text below the cell"},
	"fmt.Fprintln": {"writes to a stream", "use fmt.Sprintln, or fmt.Println to show text below the cell"},

	"fmt.Scan":      {"waits for somebody to type", "write the value into the cell"},
	"fmt.Scanf":     {"waits for somebody to type", "write the value into the cell"},
	"fmt.Scanln":    {"waits for somebody to type", "write the value into the cell"},
	"fmt.Fscan":     {"reads from a stream", "write the value into the cell"},
	"fmt.Fscanf":    {"reads from a stream", "write the value into the cell"},
	"fmt.Fscanln":   {"reads from a stream", "write the value into the cell"},
	"fmt.Sscan":     {"writes into variables behind the note's back", "use strconv, or units.Parse for a quantity"},
	"fmt.Sscanf":    {"writes into variables behind the note's back", "use strconv, or units.Parse for a quantity"},
	"fmt.Sscanln":   {"writes into variables behind the note's back", "use strconv, or units.Parse for a quantity"},
	"fmt.Scanner":   {"is for fmt.Scan, which cells do not have", ""},
	"fmt.ScanState": {"is for fmt.Scan, which cells do not have", ""},

	// A Formatter writes piecewise into the printer that calls it.
	"fmt.Formatter":    {"writes into the printer that calls it", "give the type a method String() string"},
	"fmt.State":        {"writes into the printer that calls it", "give the type a method String() string"},
	"fmt.FormatString": {"is for fmt.Formatter, which cells do not have", ""},

	"strings.Reader":    {"is for reading streams, which cells do not have", "use the string itself, strings.Fields or strings.Split"},
	"strings.NewReader": {"is for reading streams, which cells do not have", "use the string itself, strings.Fields or strings.Split"},

	// What it makes cannot be bounded before the call.
	"strings.Replacer":    {"can make far more text than there is memory", "use strings.ReplaceAll"},
	"strings.NewReplacer": {"can make far more text than there is memory", "use strings.ReplaceAll"},

	"strings.Lines":         {"gives an iterator of Go's iter package", "use strings.Split"},
	"strings.SplitSeq":      {"gives an iterator of Go's iter package", "use strings.Split"},
	"strings.SplitAfterSeq": {"gives an iterator of Go's iter package", "use strings.SplitAfter"},
	"strings.FieldsSeq":     {"gives an iterator of Go's iter package", "use strings.Fields"},
	"strings.FieldsFuncSeq": {"gives an iterator of Go's iter package", "use strings.FieldsFunc"},

	"errors.AsType": {"is generic", "use errors.As"},

	// What looks into the cases of a value would come out otherwise when only
	// some of them are computed.
	"ohmwright/units.Quantity.Extremes":   casesOf,
	"ohmwright/units.Quantity.Limits":     casesOf,
	"ohmwright/units.Quantity.Sources":    casesOf,
	"ohmwright/units.Quantity.Sweeps":     casesOf,
	"ohmwright/units.Quantity.Boards":     casesOf,
	"ohmwright/units.Quantity.Std":        casesOf,
	"ohmwright/units.Quantity.Percentile": casesOf,
	"ohmwright/units.Quantity.WithSI":     casesOf,
	"ohmwright/units.Quantity.Plain":      casesOf,
	"ohmwright/units.Quantity.Inside":     casesOf,
	"ohmwright/units.Quantity.Sampled":    casesOf,
	"ohmwright/units.Quantity.Bounded":    casesOf,
	"ohmwright/units.Quantity.HasChance":  casesOf,
	"ohmwright/units.Quantity.GivenAs":    casesOf,
	"ohmwright/units.Study":               {"belongs to the note, which places values with spread itself", "write Range, Band or ±"},
	"ohmwright/units.NewStudy":            {"belongs to the note, which places values with spread itself", "write Range, Band or ±"},
	"ohmwright/units.StudyOptions":        {"belongs to the note, which places values with spread itself", "write Range, Band or ±"},
	"ohmwright/units.Source":              {"belongs to the note, which places values with spread itself", "write Range, Band or ±"},
	"ohmwright/units.Case":                {"belongs to the note, which places values with spread itself", "write Range, Band or ±"},
	"ohmwright/units.Cases":               {"belongs to the note, which places values with spread itself", "write Range, Band or ±"},
	"ohmwright/units.Sweep":               {"belongs to the note, which places values with spread itself", "write Range, Band or ±"},
	"ohmwright/units.Extreme":             {"belongs to the note, which places values with spread itself", "write Range, Band or ±"},
	"ohmwright/units.Setting":             {"belongs to the note, which places values with spread itself", "write Range, Band or ±"},
	"ohmwright/units.Split":               {"belongs to the note, which places values with spread itself", "write Range, Band or ±"},
	"ohmwright/units.Shape":               {"belongs to the note, which places values with spread itself", "write Range, Band or ±"},
	"ohmwright/units.UniformShape":        {"belongs to the note, which places values with spread itself", "write Range, Band or ±"},
	"ohmwright/units.NormalShape":         {"belongs to the note, which places values with spread itself", "write Range, Band or ±"},
}

var casesOf = reason{"reads the cases of a value, which only the note sees", "use High, Low and Nominal, or show them with Spread(x)"}
