package host_test

import (
	"go/token"
	"go/types"
	"os"
	"reflect"
	"strings"
	"testing"

	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/cell/host/allow"
)

// Every name that a cell can see is compiled in, or refused with a reason.
func TestEveryNameResolvesOrIsRefused(t *testing.T) {
	t.Parallel()
	w := load(t)
	for _, path := range w.Paths() {
		scope := packageOf(t, w, path).Scope()
		for _, name := range scope.Names() {
			obj := scope.Lookup(name)
			if !obj.Exported() {
				continue
			}
			refusal := w.Missing(path, name)
			v, hosted := w.Host(path, name)
			switch obj := obj.(type) {
			case *types.Const:
				if refusal != nil || hosted {
					t.Errorf("%s.%s: a constant is refused or compiled", path, name)
				}
			case *types.TypeName:
				named, ok := types.Unalias(obj.Type()).(*types.Named)
				if !ok || constraint(named) {
					continue
				}
				if typ, ok := w.HostType(named); ok == (refusal != nil) || ok && typ.Name() != name {
					t.Errorf("%s.%s: compiled type %v, refusal %v", path, name, typ, refusal)
				}
			default:
				if hosted == (refusal != nil) {
					t.Errorf("%s.%s: compiled %v, refusal %v", path, name, hosted, refusal)
				}
				if hosted && !fits(w, obj, v) {
					t.Errorf("%s.%s: compiled as %v, checked as %v", path, name, v.Type(), obj.Type())
				}
			}
		}
	}
}

func packageOf(t *testing.T, w *host.World, path string) *types.Package {
	t.Helper()
	p, err := w.Importer().Import(path)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func constraint(n *types.Named) bool {
	i, ok := n.Underlying().(*types.Interface)
	return ok && !i.IsMethodSet()
}

// fits compares the compiled type with the checked one: the count of
// parameters and results, and those that are named types.
func fits(w *host.World, obj types.Object, v reflect.Value) bool {
	if _, ok := obj.(*types.Var); ok {
		return v.Kind() == reflect.Pointer && sameType(w, obj.Type(), v.Type().Elem())
	}
	sig := obj.Type().(*types.Signature)
	if v.Kind() != reflect.Func || v.Type().NumIn() != sig.Params().Len() || v.Type().NumOut() != sig.Results().Len() || v.Type().IsVariadic() != sig.Variadic() {
		return false
	}
	for i := range sig.Params().Len() {
		if !sameType(w, sig.Params().At(i).Type(), v.Type().In(i)) {
			return false
		}
	}
	for i := range sig.Results().Len() {
		if !sameType(w, sig.Results().At(i).Type(), v.Type().Out(i)) {
			return false
		}
	}
	return true
}

func sameType(w *host.World, checked types.Type, compiled reflect.Type) bool {
	named, ok := types.Unalias(checked).(*types.Named)
	if !ok || named.Obj().Pkg() == nil {
		return true
	}
	got, ok := w.HostType(named)
	return ok && got == compiled || !named.Obj().Exported()
}

func TestEveryBuiltinResolves(t *testing.T) {
	t.Parallel()
	w := load(t)
	for _, name := range w.BuiltinNames() {
		obj := w.Builtin(name)
		if obj.Name() != name {
			t.Errorf("%s: the object is called %s", name, obj.Name())
		}
		path := obj.Pkg().Path()
		switch obj.(type) {
		case *types.Func, *types.Var:
			if _, ok := w.Host(path, name); !ok {
				t.Errorf("%s: not in the tables of %s", name, path)
			}
		}
		if d, ok := w.Doc(path, name); !ok || d.File == "" || d.Line == 0 || d.Signature == "" {
			t.Errorf("%s: no documentation: %+v", name, d)
		}
	}
}

// The names that the design promises to every cell.
func TestPromisedNamesAreInScope(t *testing.T) {
	t.Parallel()
	w := load(t)
	promised := "Quantity Range Band Typical High Low Nominal Another Require Within Settle " +
		"Sqrt Exp Ln Log10 Pow Abs Min Max Sin Cos Tan Atan Parallel Where Pi In Absolute " +
		"Power Voltage Level PowerRatio VoltageRatio PowerGain VoltageGain PowerSum " +
		"Nearest AtLeast AtMost E3 E6 E12 E24 E48 E96 E192"
	for name := range strings.FieldsSeq(promised) {
		if w.Builtin(name) == nil {
			t.Errorf("%s is not in scope", name)
		}
	}
}

func TestPreferredHidesNothing(t *testing.T) {
	t.Parallel()
	w := load(t)
	scope := packageOf(t, w, allow.Preferred).Scope()
	for _, name := range scope.Names() {
		obj := scope.Lookup(name)
		if !obj.Exported() || w.Refused(obj) != nil {
			continue
		}
		if got := w.Builtin(name); got != nil && got != obj {
			t.Errorf("preferred.%s clashes with %v", name, got)
		}
		if w.Package(name) != nil || types.Universe.Lookup(name) != nil {
			t.Errorf("preferred.%s clashes with a package or a word of Go", name)
		}
	}
}

func TestRefusals(t *testing.T) {
	t.Parallel()
	w := load(t)
	for _, c := range []struct{ path, name, want string }{
		{"fmt", "Fprintf", "fmt.Fprintf is not available in cells, because it writes to a stream: use fmt.Sprintf, or fmt.Printf to show text below the cell"},
		{"fmt", "Sscanf", "fmt.Sscanf is not available in cells, because it writes into variables behind the note's back: use strconv, or units.Parse for a quantity"},
		{"strings", "SplitSeq", "strings.SplitSeq is not available in cells, because it gives an iterator of Go's iter package: use strings.Split"},
		{"strings", "Reader.WriteTo", "strings.Reader.WriteTo is not available in cells, because it needs io.Writer"},
		{"cmp", "Compare", "cmp.Compare is not available in cells, because compiled generic code cannot be called from a cell: write the loop, or a function of your own; generic functions of a note's own cells work"},
		{"errors", "AsType", "errors.AsType is not available in cells, because it is generic: use errors.As"},
		{allow.Preferred, "Source", "preferred.Source is not available in cells, because it is of type embed.FS"},
		{allow.Units, "Quantity.Format", "units.Quantity.Format is not available in cells, because it needs fmt.State"},
		{"unicode", "Greek", "unicode.Greek is not available in cells, because a cell could change it for everyone"},
		{"fmt", "Sprintf", ""},
		{"strings", "Builder.WriteString", ""},
		{"cmp", "Ordered", ""},
		{"strconv", "ErrRange", ""},
		{"unicode", "MaxRune", ""},
		{"fmt", "NoSuchName", ""},
		{"os", "Exit", ""},
	} {
		got := ""
		if r := w.Missing(c.path, c.name); r != nil {
			got = r.Error()
		}
		if got != c.want {
			t.Errorf("%s.%s: %q, want %q", c.path, c.name, got, c.want)
		}
	}
}

// What a cell stores through the tables stays with that cell.
func TestVariablesAreCopies(t *testing.T) {
	t.Parallel()
	w := load(t)
	a, ok := w.Host("strconv", "ErrRange")
	if !ok {
		t.Fatal("no strconv.ErrRange")
	}
	b, _ := w.Host("strconv", "ErrRange")
	if a.Elem().Interface() != b.Elem().Interface() {
		t.Error("two copies differ: errors.Is would fail")
	}
	a.Elem().SetZero()
	if b.Elem().IsNil() {
		t.Error("a change reached the other copy")
	}
	if c, _ := w.Host("strconv", "ErrRange"); c.Elem().IsNil() {
		t.Error("a change reached the variable")
	}
}

// Nothing in the tables reads, writes, waits or draws lots.
func TestTablesArePure(t *testing.T) {
	t.Parallel()
	w := load(t)
	for _, path := range w.Paths() {
		scope := packageOf(t, w, path).Scope()
		for _, name := range scope.Names() {
			v, ok := w.Host(path, name)
			if !ok || v.Kind() != reflect.Func {
				continue
			}
			for i := range v.Type().NumIn() {
				for _, bad := range []string{"io", "os", "iter", "reflect", "unsafe", "time", "context"} {
					if v.Type().In(i).PkgPath() == bad {
						t.Errorf("%s.%s takes a %v", path, name, v.Type().In(i))
					}
				}
			}
			for _, bad := range []string{"Scan", "Fprint", "Fscan", "Sscan"} {
				if strings.HasPrefix(name, bad) && path == "fmt" {
					t.Errorf("fmt.%s is in the tables", name)
				}
			}
		}
	}
}

func TestWrapperImplementsItsInterface(t *testing.T) {
	t.Parallel()
	w := load(t)
	wrapper, ok := w.Wrapper("sort", "Interface")
	if !ok {
		t.Fatal("sort.Interface has no wrapper")
	}
	named := packageOf(t, w, "sort").Scope().Lookup("Interface").Type().(*types.Named)
	iface, ok := w.HostType(named)
	if !ok || !wrapper.Implements(iface) {
		t.Fatalf("%v does not implement %v", wrapper, iface)
	}
	v := reflect.New(wrapper).Elem()
	v.FieldByName("WLen").Set(reflect.ValueOf(func() int { return 42 }))
	if got := v.MethodByName("Len").Call(nil)[0].Int(); got != 42 {
		t.Errorf("Len is %d", got)
	}
	if _, ok := w.Wrapper("fmt", "State"); ok {
		t.Error("fmt.State has a wrapper")
	}
}

func TestHostTypeOfOthers(t *testing.T) {
	t.Parallel()
	w := load(t)
	cell := types.NewNamed(types.NewTypeName(token.NoPos, types.NewPackage("note", "note"), "Quantity", nil), types.Typ[types.Int], nil)
	if typ, ok := w.HostType(cell); ok {
		t.Errorf("a cell's own type is %v", typ)
	}
	errType := types.Universe.Lookup("error").Type().(*types.Named)
	if typ, ok := w.HostType(errType); ok {
		t.Errorf("error is %v", typ)
	}
}

func TestPlanned(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"Trend", "Series"} {
		if msg, ok := host.Planned(name); !ok || !strings.HasPrefix(msg, name+" is not available in this version: ") {
			t.Errorf("%s: %q", name, msg)
		}
	}
	if msg, ok := host.Planned("Sqrt"); ok {
		t.Errorf("Sqrt: %q", msg)
	}
}

func TestDocs(t *testing.T) {
	t.Parallel()
	w := load(t)
	d, ok := w.Doc(allow.Builtin, "Within")
	if !ok {
		t.Fatal("Within has no documentation")
	}
	if d.Kind != "func" || d.Signature != "func Within(x, lo, hi units.Quantity) bool" || d.File != "kernel/cell/builtin/builtin.go" || !strings.HasPrefix(d.Text, "Within reports whether") {
		t.Errorf("%+v", d)
	}
	file, err := os.ReadFile("../../../" + d.File)
	if err != nil {
		t.Fatal(err)
	}
	if lines := strings.Split(string(file), "\n"); d.Line > len(lines) || !strings.HasPrefix(lines[d.Line-1], d.Signature) {
		t.Errorf("line %d of %s is not where Within stands", d.Line, d.File)
	}
	if d, ok := w.Doc(allow.Units, "Quantity.Mul"); !ok || d.Kind != "method" {
		t.Errorf("Quantity.Mul: %+v", d)
	}
	if d, ok := w.Doc(allow.Units, ""); !ok || d.Kind != "package" || d.Signature != "package units" {
		t.Errorf("units: %+v", d)
	}
	if _, ok := w.Doc(allow.Units, "mulSlow"); ok {
		t.Error("mulSlow is documented")
	}
	if _, ok := w.Doc("os", "Exit"); ok {
		t.Error("os.Exit is documented")
	}
}
