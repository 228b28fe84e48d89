package cell

import (
	"go/ast"
	"go/token"
	"go/types"
	"regexp"
	"slices"
	"sort"
	"strconv"
	"strings"

	"github.com/agext/levenshtein"

	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/cell/host/allow"
)

// reword turns go/types' messages into what the user of a note understands:
// made names become what was typed, packages lose their paths, and quantities
// are never called numbers.
func (c *Checked) reword(raw []types.Error) []*Error {
	var errs []*Error
	for i, r := range raw {
		if strings.HasPrefix(r.Msg, "\t") {
			continue // a continuation that points elsewhere
		}
		whole := r.Msg
		for _, next := range raw[i+1:] {
			if !strings.HasPrefix(next.Msg, "\t") || !strings.Contains(next.Msg, " refers to ") {
				break
			}
			whole += "\n" + next.Msg
		}
		msg, hint, code := c.message(whole)
		if m := undefinedMember.FindStringSubmatch(msg); m != nil && hint == "" {
			hint = c.nearestField(r.Pos, m[1])
		}
		e := c.errorAt(r.Pos, code, msg, hint)
		if e.Line == 0 {
			e.Line, e.Column = 1, 1
		}
		errs = append(errs, e)
	}
	return errs
}

// nearestField suggests a field for one that a value does not have.
func (c *Checked) nearestField(at token.Pos, name string) (hint string) {
	for _, f := range []*ast.File{c.declFile, c.stmtFile} {
		ast.Inspect(f, func(n ast.Node) bool {
			if x, ok := n.(*ast.SelectorExpr); ok && x.Sel.Pos() == at {
				if t := c.info.TypeOf(x.X); t != nil {
					var names []string
					for _, f := range fieldsOf(t) {
						names = append(names, f.Name())
					}
					hint = Suggest(name, names)
				}
			}
			return true
		})
	}
	return hint
}

var (
	undefinedName   = regexp.MustCompile(`^undefined: ([^.]+)$`)
	undefinedField  = regexp.MustCompile(`^undefined: (\S+)\.(\S+)$`)
	undefinedMember = regexp.MustCompile(`has no field or method (\S+)\)$`)
	notDefinedOn    = regexp.MustCompile(`operator (\S+) not defined on (.+?) \((.*)\)`)
	mismatched      = regexp.MustCompile(`mismatched types (.+) and (.+)\)`)
	madeTolerance   = regexp.MustCompile(reserved + `u\.Tolerance\(([^()]*), ([^()]*)\)`)
	madeLiteral     = regexp.MustCompile(reserved + `[0-9a-zA-Z_]+`)
	describedAs     = regexp.MustCompile(`(of|constant \S+ of) (?:\w+ )?type ([\w./]*Quantity)`)
	pathPrefix      = regexp.MustCompile(`\b(?:[\w.-]+/)+(\w+)\.`)
	needsItself     = regexp.MustCompile(`(?s)^initialization cycle.*`)
	cycleStep       = regexp.MustCompile(`(\S+) refers to (\S+)`)
)

func (c *Checked) message(msg string) (text, hint string, code Code) {
	code = CodeType
	text = c.plain(msg)
	switch {
	case undefinedName.MatchString(text):
		return c.unknown(undefinedName.FindStringSubmatch(text)[1])
	case undefinedField.MatchString(text):
		m := undefinedField.FindStringSubmatch(text)
		if file, ok := c.naming.file(m[1] + "."); ok {
			var names []string
			for _, name := range c.scope.Names() {
				if strings.HasPrefix(name, m[1]+".") {
					names = append(names, name)
				}
			}
			if m[2] == "Compute" || m[2] == "Inputs" {
				return m[1] + "." + m[2] + " computes a note anew, and cannot be used like this", "let it stand by itself at the top level of a cell, each input with its name: " + exampleBlock, CodeRefused
			}
			hint := Suggest(m[0][len("undefined: "):], names)
			if hint == "" && c.scope.Unread != nil {
				hint = c.scope.Unread(m[1] + ".")
			}
			return file + " does not define " + m[2], hint, CodeName
		}
		if k := c.scope.World.Package(m[1]); k != nil {
			return "package " + m[1] + " has no " + m[2], Suggest(m[2], exported(k)), CodeName
		}
	case needsItself.MatchString(msg):
		steps := cycleStep.FindAllStringSubmatch(c.plain(msg), -1)
		names := []string{}
		for _, s := range steps {
			names = append(names, s[1])
		}
		if len(names) > 0 {
			names = append(names, names[0])
			if len(names) == 2 {
				return names[0] + " needs itself", "a definition cannot use the name that it defines", CodeCycle
			}
			return strings.Join(names, " needs "), "give one of them a value that does not depend on the other, or use Settle", CodeCycle
		}
		return "a name needs itself", "a definition cannot use the name that it defines", CodeCycle
	case strings.HasPrefix(msg, "invalid recursive type"):
		if m := cycleStep.FindStringSubmatch(text); m != nil {
			return "type " + m[1] + " contains itself", "use a pointer, *" + m[1] + ", or a slice", CodeCycle
		}
	case strings.Contains(text, "operator ^ not defined"):
		return "^ is not a power in Go", "write Pow(x, n)", CodeRefused
	case notDefinedOn.MatchString(text) && strings.Contains(text, "Quantity"):
		m := notDefinedOn.FindStringSubmatch(text)
		return "quantities have no operator " + m[1] + " (" + m[2] + " is a quantity)", "", code
	case mismatched.MatchString(text):
		m := mismatched.FindStringSubmatch(text)
		text = strings.TrimPrefix(text, "invalid operation: ")
		if num(m[1]) && num(m[2]) {
			hint = "convert one side, float64(n)"
		}
		return text, hint, code
	case strings.Contains(text, "in argument to "+unitsName+".Tolerance"):
		text = strings.Replace(text, "in argument to "+unitsName+".Tolerance", "beside ±", 1)
		hint = "± takes a value with a unit, a number, or a percentage, 10kΩ ± 1%"
	case strings.Contains(text, "as Quantity value in argument to"):
		hint = "a plain number becomes a quantity by Quantity(x), a value with a unit is written 5V"
	case strings.HasPrefix(text, "not enough arguments in call to Require"):
		hint = `say what must hold, Require(Tj <= 125°C, "the junction stays below its rating")`
	case strings.HasPrefix(text, "could not import "):
		text = strings.TrimPrefix(text, "could not import ")
		if i := strings.Index(text, "("); i >= 0 {
			text = strings.TrimSuffix(text[i+1:], ")")
		}
		code = CodeRefused
	case strings.Contains(text, "is not constant") && strings.Contains(text, "Quantity"):
		text, hint = "a quantity cannot be a constant", "define it as a value, R := 5V"
	case strings.Contains(text, "truncated"):
		hint = "a whole number meets a fraction: write float64(n), or give the constant as 2.0"
	case strings.Contains(text, "assignment mismatch"):
		hint = "the two sides of := need the same number of values"
	}
	return strings.TrimPrefix(text, "invalid operation: "), hint, code
}

func num(t string) bool {
	switch strings.TrimSpace(t) {
	case "int", "float64", "int64", "float32", "uint", "int32", "uint64", "byte", "rune":
		return true
	}
	return false
}

// plain takes made names and package paths out of a message.
func (c *Checked) plain(msg string) string {
	for before := ""; before != msg; { // from the inside out
		before = msg
		msg = madeTolerance.ReplaceAllString(msg, "$1 ± $2")
	}
	msg = unwrap(unwrap(msg, unitsName+".Quantity("), mustName+"(")
	msg = madeLiteral.ReplaceAllStringFunc(msg, func(s string) string {
		if l, ok := c.literals[s]; ok {
			return c.literalText(l)
		}
		if name, ok := c.aliases[s]; ok {
			return name
		}
		return s
	})
	msg = pathPrefix.ReplaceAllStringFunc(msg, func(s string) string {
		name := strings.TrimSuffix(s[strings.LastIndexByte(s, '/')+1:], ".")
		if name == "units" || name == "builtin" || name == "preferred" {
			return ""
		}
		return name + "."
	})
	msg = strings.ReplaceAll(msg, NotePath+".", "")
	msg = describedAs.ReplaceAllString(msg, "$1 type $2")
	msg = strings.ReplaceAll(msg, "units.Quantity", "Quantity")
	return msg
}

// unwrap takes a made call off what it was put around.
func unwrap(msg, open string) string {
	for {
		start := strings.Index(msg, open)
		if start < 0 {
			return msg
		}
		depth, end := 1, start+len(open)
		for ; end < len(msg); end++ {
			if msg[end] == '(' {
				depth++
			} else if msg[end] == ')' {
				if depth--; depth == 0 {
					break
				}
			}
		}
		inside := msg[start+len(open) : end]
		msg = msg[:start] + inside + msg[min(end+1, len(msg)):]
	}
}

func (c *Checked) literalText(l literal) string {
	if l.text != "" {
		return l.text
	}
	return c.Src[l.start:l.end]
}

// unknown words an unknown name.
func (c *Checked) unknown(name string) (text, hint string, code Code) {
	if msg, ok := host.Planned(name); ok {
		return msg, "", CodeName
	}
	if c.naming != nil && c.naming.Imports[name] != "" {
		return name + " is a note, not a value", "write a name in it, " + name + ".NAME", CodeName
	}
	text = name + " is not defined"
	var names []string
	names = append(names, c.Defines...)
	names = append(names, c.scope.Names()...)
	names = append(names, c.scope.World.BuiltinNames()...)
	names = append(names, c.scope.World.PackageNames()...)
	if s := Suggest(name, names); s != "" {
		return text, s, CodeName
	}
	return text, "define it in any cell of the note, " + name + " := …", CodeName
}

func exported(k *types.Package) []string {
	var names []string
	for _, n := range k.Scope().Names() {
		if k.Scope().Lookup(n).Exported() {
			names = append(names, n)
		}
	}
	return names
}

// Suggest words the names nearest to one that is unknown, "" if none is near.
func Suggest(name string, among []string) string {
	type near struct {
		name string
		d    int
	}
	var list []near
	seen := map[string]bool{name: true}
	for _, n := range among {
		if seen[n] || isMade(n) {
			continue
		}
		seen[n] = true
		d := levenshtein.Distance(strings.ToLower(name), strings.ToLower(n), nil)
		if d <= (len(name)+2)/4 || d <= 2 && letters(name) == letters(n) {
			list = append(list, near{n, d})
		}
	}
	sort.Slice(list, func(i, j int) bool {
		return list[i].d < list[j].d || list[i].d == list[j].d && list[i].name < list[j].name
	})
	var out []string
	for _, n := range list[:min(len(list), 3)] {
		out = append(out, n.name)
	}
	if len(out) == 0 {
		return ""
	}
	return "did you mean " + strings.Join(out, " or ") + "?"
}

// letters are those of a word in order, the same for words with two of them swapped.
func letters(s string) string {
	r := []rune(strings.ToLower(s))
	slices.Sort(r)
	return string(r)
}

// decimalText writes what a whole-number division was meant to be.
func decimalText(x float64, a, b string) string {
	if s := strconv.FormatFloat(x, 'g', -1, 64); len(s) <= 8 {
		return s
	}
	if strings.Trim(a, "0123456789_") == "" {
		return a + ".0/" + b
	}
	return "float64(" + a + ")/" + b
}

// notice says what is right but may surprise.
func (c *Checked) notice() {
	for _, name := range c.Defines {
		if k := c.scope.World.Package(name); c.scope.World.Builtin(name) != nil || k != nil && allow.Yields(k.Path()) {
			line := 1
			if id := c.definingIdent(name); id != nil {
				if at, ok := c.offset(id.Pos()); ok {
					line = c.line(at)
				}
			}
			c.Notices = append(c.Notices, Located{name + " hides what is built in under this name, in the whole note", line})
		}
	}
	for _, s := range c.spans {
		text := c.Src[s.start:s.end]
		if !strings.ContainsAny(text, "/*^·") {
			continue // one unit, which belongs to the number
		}
		for i, part := range unitSymbols.FindAllString(text, -1) {
			if i > 0 && (slices.Contains(c.Defines, part) || c.scope.Object(part) != nil) {
				c.Notices = append(c.Notices, Located{"in " + text + ", " + part + " is the unit, not the name " + part +
					": put spaces around the operator to calculate with the name", c.line(s.start)})
			}
		}
	}
}

// unitSymbols finds the words of a unit in a literal; the first belongs to the number.
var unitSymbols = regexp.MustCompile(`[\p{L}_µΩ°√%]+`)
