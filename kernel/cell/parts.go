package cell

import (
	"go/ast"
	"go/token"
	"go/types"
	"reflect"
	"regexp"
	"strconv"
	"strings"

	"ohmwright/kernel/cell/builtin"
	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

// What a cell says about the board as it is built: Part, Derate, Waive, Case
// and Measured. Each stands by itself at the top level of a cell.

// PartOf is a Part that was reached.
type PartOf struct {
	Reference string
	Value     units.Quantity
	Words     string // in place of Value: "2 A step-down regulator"
	Name      string // the name of the note that it is, "" for another value
	Formula   *Expr
}

// Rating says of a requirement that it holds a rating of a part.
type Rating struct {
	Reference, What string
	Limit           units.Quantity
	Policy          float64 // the share that may be used
}

// Policy is a Derate: how much of a rating may be used.
type Policy struct {
	Letters string // of references; "" for all
	What    string
	Share   float64
	call    *ast.CallExpr
}

// Waiver is a Waive that was reached.
type Waiver struct{ ID, Reason string }

// CaseOf is a Case that was reached: inputs of the note and their values.
type CaseOf struct {
	Name   string
	Inputs []string
	Values []units.Quantity
}

// MeasuredOf is a Measured that was reached.
type MeasuredOf struct {
	Value   units.Quantity // computed
	Reading units.Quantity
	How     string
	Name    string
	Formula *Expr
}

// standing are the built-ins of which a call stands by itself, and how one looks.
var standing = map[string]string{
	"Part": `Part("R5", Rtop)`, "Derate": `Derate("voltage", 80%) or Derate("C", "voltage", 80%)`, "Waive": `Waive("PWR-3", "why, who and when")`,
	"Case": `Case("cold start", Vin, 18V)`, "Measured": `Measured(Vout, 4.97V ± 5mV, "date and instrument")`,
}

// standingCall is the call of such a built-in that a statement is.
func (c *Checked) standingCall(s *statement) (call *ast.CallExpr, name string) {
	if s.value == nil {
		return nil, ""
	}
	call, ok := ast.Unparen(s.value).(*ast.CallExpr)
	if !ok {
		return nil, ""
	}
	for name := range standing {
		if c.isBuiltin(call.Fun, name) {
			return call, name
		}
	}
	return nil, ""
}

// misplacedParts refuses what does not stand by itself, and arguments that the
// note cannot read.
func (c *Checked) misplacedParts() []*Error {
	good := map[*ast.CallExpr]bool{}
	var errs []*Error
	for _, s := range c.stmts {
		call, name := c.standingCall(s)
		if call == nil {
			continue
		}
		good[call] = true
		switch name {
		case "Derate":
			if _, ok := c.policy(call); !ok {
				errs = append(errs, c.errorAt(call.Pos(), CodeRefused, "Derate is a rule for the whole note, which has to read it first",
					"write its arguments out, the share from 1 % to 100 %: "+standing[name]))
			}
		case "Case":
			errs = append(errs, c.caseArguments(call)...)
		case "Part":
			if t := c.info.Types[call.Args[1]].Type; !c.partValue(t) {
				errs = append(errs, c.errorAt(call.Args[1].Pos(), CodeType, c.text(call.Args[1])+" is neither a value nor a text", "a part has one: "+standing["Part"]+` or Part("U1", "2 A step-down regulator")`))
			}
		}
	}
	for _, f := range []*ast.File{c.declFile, c.stmtFile} {
		ast.Inspect(f, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || good[call] {
				return true
			}
			for name, example := range standing {
				if c.isBuiltin(call.Fun, name) {
					errs = append(errs, c.errorAt(call.Pos(), CodeRefused, name+" says something of the board that is built", "let it stand by itself at the top level of a cell: "+example))
				}
			}
			return true
		})
	}
	return errs
}

// partValue reports whether a part may have a value of a type.
func (c *Checked) partValue(t types.Type) bool {
	if t == nil || types.Identical(t, c.quantity) {
		return true
	}
	b, ok := t.Underlying().(*types.Basic)
	return ok && b.Info()&(types.IsInteger|types.IsFloat|types.IsString) != 0
}

// caseArguments holds that a Case takes names of the note and their values.
func (c *Checked) caseArguments(call *ast.CallExpr) (errs []*Error) {
	if len(call.Args) < 3 || len(call.Args)%2 == 0 {
		return []*Error{c.errorAt(call.Pos(), CodeRefused, "Case needs its name, and inputs each with its value", "write "+standing["Case"])}
	}
	seen := map[string]bool{}
	for i := 1; i < len(call.Args); i += 2 {
		name := c.nameOf(call.Args[i])
		switch {
		case name == "" || !c.isName(call.Args[i]):
			errs = append(errs, c.errorAt(call.Args[i].Pos(), CodeRefused, "Case gives a value to "+c.text(call.Args[i])+", which is no name of the note", "write the name of an input, "+standing["Case"]))
		case seen[name]:
			errs = append(errs, c.errorAt(call.Args[i].Pos(), CodeRefused, "Case gives "+name+" two values", "write one of them"))
		}
		seen[name] = true
	}
	return errs
}

// Policies lists the rules of the cell that can be read; the check says what is
// wrong with the others.
func (p *Parsed) Policies() (list []Policy) {
	for _, s := range p.stmts {
		if s.value == nil {
			continue
		}
		call, ok := ast.Unparen(s.value).(*ast.CallExpr)
		if !ok {
			continue
		}
		if id, ok := call.Fun.(*ast.Ident); !ok || id.Name != "Derate" {
			continue
		}
		if d, ok := p.policy(call); ok {
			list = append(list, d)
		}
	}
	return list
}

// policy reads the arguments of a Derate.
func (p *Parsed) policy(call *ast.CallExpr) (d Policy, ok bool) {
	n := len(call.Args)
	if n != 2 && n != 3 {
		return d, false
	}
	var texts []string
	for _, a := range call.Args[:n-1] {
		lit, isText := ast.Unparen(a).(*ast.BasicLit)
		if !isText || lit.Kind != token.STRING {
			return d, false
		}
		text, err := strconv.Unquote(lit.Value)
		if err != nil || text == "" {
			return d, false
		}
		texts = append(texts, text)
	}
	d = Policy{What: texts[len(texts)-1], call: call}
	if n == 3 {
		d.Letters = texts[0]
	}
	switch x := ast.Unparen(call.Args[n-1]).(type) {
	case *ast.Ident:
		l, isLiteral := p.literals[x.Name]
		if !isLiteral || l.value.Dim() != 0 {
			return d, false
		}
		d.Share = l.value.SI()
	case *ast.BasicLit:
		var err error
		if d.Share, err = strconv.ParseFloat(x.Value, 64); err != nil {
			return d, false
		}
	}
	return d, d.Share >= 0.01 && d.Share <= 1
}

// ErrorAtPolicy makes an error at a rule of the cell.
func (p *Parsed) ErrorAtPolicy(d Policy, code Code, msg, hint string) *Error {
	return p.errorAt(d.call.Pos(), code, msg, hint)
}

// HasParts reports whether the cell may hold ratings.
func (p *Parsed) HasParts() bool {
	for _, s := range p.stmts {
		if s.value == nil {
			continue
		}
		if call, ok := ast.Unparen(s.value).(*ast.CallExpr); ok {
			if id, ok := call.Fun.(*ast.Ident); ok && id.Name == "Part" {
				return true
			}
		}
	}
	return false
}

// Judges reports whether the cell may say something that must hold, or waive it.
func (p *Parsed) Judges() bool {
	found := false
	for _, f := range []*ast.File{p.declFile, p.stmtFile} {
		if f == nil {
			continue
		}
		ast.Inspect(f, func(n ast.Node) bool {
			if call, ok := n.(*ast.CallExpr); ok {
				id := calledName(call.Fun)
				found = found || id != nil && (id.Name == "Require" || id.Name == "Part" || id.Name == "Waive")
			}
			return !found
		})
	}
	return found
}

// reference is what a part is called on a schematic.
var reference = regexp.MustCompile(`^([A-Za-z]{1,4})([0-9]{1,5})([A-Za-z]?)$`)

// Letters gives the letters at the start of a reference, "" if it is none.
func Letters(ref string) string {
	if m := reference.FindStringSubmatch(ref); m != nil {
		return m[1]
	}
	return ""
}

// standingStep records what a call of such a built-in says.
func (r *runner) standingStep(call exec.Call) error {
	node := r.callAt(call.Pos)
	line := 1
	if at, ok := r.offset(call.Pos); ok {
		line = r.line(at)
	}
	formula := func(i int) *Expr {
		if node == nil || i >= len(node.Args) || r.env.lean || r.env.Bare {
			return nil
		}
		return r.formula(node.Args[i], r.values)
	}
	name := func(i int) string {
		if node == nil || i >= len(node.Args) {
			return ""
		}
		return r.nameOf(node.Args[i])
	}
	text := func(i int) string { s, _ := call.Args[i].V.(string); return strings.TrimSpace(s) }
	quantity := func(i int) units.Quantity { q, _ := call.Args[i].V.(units.Quantity); return q }
	switch call.Func.Name() {
	case "Part":
		p := &PartOf{Reference: text(0), Name: name(1), Formula: formula(1)}
		switch view := viewOf(call.Args[1]); view.Kind {
		case exec.KindQuantity:
			p.Value = view.Quantity.(units.Quantity)
		case exec.KindNumber:
			p.Value = units.Number(view.Number)
		default:
			if p.Words = strings.Join(strings.Fields(view.Text), " "); p.Words == "" {
				return &exec.Fault{Msg: p.Reference + " has no value: its text is empty", Hint: `write what it is, Part("U1", "2 A step-down regulator")`}
			}
		}
		return r.part(call, line, p, node)
	case "Waive":
		if text(0) == "" || text(1) == "" {
			return &exec.Fault{Msg: "Waive needs an identifier and a reason", Hint: "write " + standing["Waive"]}
		}
		r.steps = append(r.steps, Step{Line: line, Waive: &Waiver{ID: text(0), Reason: text(1)}})
	case "Case":
		c := &CaseOf{Name: text(0)}
		if c.Name == "" {
			return &exec.Fault{Msg: "Case needs a name", Hint: "write " + standing["Case"]}
		}
		values, err := exec.ToGo(call.Args[1], reflect.TypeFor[[]units.Quantity]())
		if err != nil {
			return err
		}
		list := values.Interface().([]units.Quantity)
		for i := 0; i+1 < len(list); i += 2 {
			if n := name(i + 1); !r.inputOf(n) {
				return &exec.Fault{Msg: "Case gives a value to " + n + ", which is computed", Hint: "write the input that it comes from"}
			}
			if list[i].Dim() != list[i+1].Dim() {
				return &exec.Fault{Msg: "Case gives " + name(i+1) + ", which is " + units.Nominal(list[i]).String() + ", the value " + units.Nominal(list[i+1]).String(), Hint: "write a value of its kind"}
			}
			c.Inputs, c.Values = append(c.Inputs, name(i+1)), append(c.Values, list[i+1])
		}
		r.steps = append(r.steps, Step{Line: line, Case: c})
	case "Measured":
		m := &MeasuredOf{Value: quantity(0), Reading: quantity(1), How: text(2), Name: name(0), Formula: formula(0)}
		switch {
		case m.How == "":
			return &exec.Fault{Msg: "Measured needs the date and the instrument", Hint: "write " + standing["Measured"]}
		case m.Value.Dim() != m.Reading.Dim():
			return &exec.Fault{Msg: "the reading is " + units.Nominal(m.Reading).String() + ", and what is computed " + units.Nominal(m.Value).String(), Hint: "both are of one kind"}
		}
		r.steps = append(r.steps, Step{Line: line, Measured: m, Key: r.keyOf(call)})
	case "Derate":
		if node != nil {
			if d, ok := r.policy(node); ok {
				r.steps = append(r.steps, Step{Line: line, Derate: &d})
			}
		}
	}
	return nil
}

// inCase names what spreads in an input of a Case.
func (r *runner) inCase(call *ast.CallExpr, pos token.Pos) (name string, whole bool) {
	for i := 2; i < len(call.Args); i += 2 {
		if a := call.Args[i]; a.Pos() <= pos && pos <= r.end(a) {
			title := r.text(call.Args[0])
			if text, err := strconv.Unquote(title); err == nil {
				title = text
			}
			value, ok := ast.Unparen(a).(*ast.CallExpr)
			return r.nameOf(call.Args[i-1]) + " in " + title, ok && value.Lparen == pos
		}
	}
	return r.text(call), false
}

// inputOf reports whether a name is an input of the note.
func (r *runner) inputOf(name string) bool {
	for _, s := range r.stmts {
		for i, id := range s.defines {
			if id.Name == name {
				return s.spec != nil && len(s.spec.Values) == len(s.defines) && r.isInput(s.spec.Values[i]) && !r.changed[r.info.Defs[id]]
			}
		}
	}
	return r.env.Input == nil || r.env.Input(name)
}

// part records a part, and each of its ratings as a requirement.
func (r *runner) part(call exec.Call, line int, p *PartOf, node *ast.CallExpr) error {
	if Letters(p.Reference) == "" {
		return &exec.Fault{Msg: strconv.Quote(p.Reference) + " is no reference of a part", Hint: "write letters and a number, R5"}
	}
	r.steps = append(r.steps, Step{Line: line, Part: p})
	values, err := exec.ToGo(call.Args[2], reflect.TypeFor[[]builtin.Rating]())
	if err != nil {
		return err
	}
	key := r.keyOf(call)
	for i, g := range values.Interface().([]builtin.Rating) {
		rating := &Rating{Reference: p.Reference, What: g.What, Limit: g.Limit, Policy: 1}
		if r.env.Policy != nil {
			rating.Policy = r.env.Policy(p.Reference, g.What)
		}
		share := units.Abs(g.Stress).Div(g.Limit)
		if g.Stress.SI() == 0 && g.Stress.Dim() != g.Limit.Dim() {
			share = units.Number(0)
		}
		d := units.In(margin(units.Number(rating.Policy), share), "%")
		req := &Requirement{Text: p.Reference + " " + g.What, Holds: d.SI() >= 0, Margin: &d, Rating: rating}
		if node != nil && i+2 < len(node.Args) && !r.env.lean && !r.env.Bare {
			if rated, ok := ast.Unparen(node.Args[i+2]).(*ast.CallExpr); ok && r.isBuiltin(rated.Fun, "Rated") && len(rated.Args) == 3 {
				req.Stress = r.formula(rated.Args[2], r.values)
			}
		}
		r.steps = append(r.steps, Step{Line: line, Require: req, Key: key + "/" + strconv.Itoa(i)})
	}
	return nil
}

// standsBySelf reports whether an intercepted function is one of these.
func standsBySelf(f *types.Func) bool {
	_, ok := standing[f.Name()]
	return ok && strings.HasSuffix(f.Pkg().Path(), "/kernel/cell/builtin")
}
