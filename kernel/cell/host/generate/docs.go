package main

import (
	"bytes"
	"encoding/json"
	"go/ast"
	"go/doc"
	"go/format"
	"go/token"
	"go/types"
	"path/filepath"
	"slices"
	"strings"

	"ohmwright/kernel/cell/host/allow"
)

// entry is one line of the doc index; the host package reads it back.
type entry struct {
	Package   string `json:"package"`
	Name      string `json:"name"` // "" for the package, "Type.Method", "Type.Field"
	Kind      string `json:"kind"`
	Signature string `json:"signature,omitempty"`
	Text      string `json:"text,omitempty"`
	File      string `json:"file"`
	Line      int    `json:"line"`
}

// docIndex lists what our own packages export, with its documentation, as
// JSON with one entry a line.
func docIndex(root string, pkgs []*source) ([]byte, error) {
	var all []entry
	for _, p := range pkgs {
		if slices.Contains(allow.Standard(), p.ImportPath) {
			continue
		}
		list, err := describe(root, p)
		if err != nil {
			return nil, err
		}
		all = append(all, list...)
	}
	slices.SortFunc(all, func(a, b entry) int {
		if c := strings.Compare(a.Package, b.Package); c != 0 {
			return c
		}
		return strings.Compare(a.Name, b.Name)
	})
	var out bytes.Buffer
	out.WriteString("[\n")
	for i, e := range all {
		// Plain text for people to review: < and > stay as they are.
		var line bytes.Buffer
		enc := json.NewEncoder(&line)
		enc.SetEscapeHTML(false)
		if err := enc.Encode(e); err != nil {
			return nil, err
		}
		out.Write(bytes.TrimSpace(line.Bytes()))
		if i < len(all)-1 {
			out.WriteByte(',')
		}
		out.WriteByte('\n')
	}
	out.WriteString("]\n")
	return out.Bytes(), nil
}

// describer collects the entries of one package.
type describer struct {
	root string
	pkg  *source
	list []entry
	err  error
}

func describe(root string, p *source) ([]entry, error) {
	d := &describer{root: root, pkg: p}
	var pos token.Pos
	for _, f := range p.syntax {
		if f.Doc != nil {
			pos = f.Package
		}
	}
	// go/doc cuts the syntax down to what is exported; nobody else needs it.
	dp, err := doc.NewFromFiles(p.fset, p.syntax, p.ImportPath)
	if err != nil {
		return nil, err
	}
	if pos.IsValid() {
		d.add("", "package", "package "+p.Name, dp.Doc, pos)
	}
	d.values("const", dp.Consts)
	d.values("var", dp.Vars)
	d.funcs("", dp.Funcs)
	for _, t := range dp.Types {
		d.typ(t)
		d.values("const", t.Consts)
		d.values("var", t.Vars)
		d.funcs("", t.Funcs)
		d.funcs(t.Name+".", t.Methods)
	}
	return d.list, d.err
}

func (d *describer) add(name, kind, signature, text string, pos token.Pos) {
	p := d.pkg.fset.Position(pos)
	file, err := filepath.Rel(d.root, p.Filename)
	if err != nil {
		d.err = err
	}
	d.list = append(d.list, entry{
		Package: d.pkg.ImportPath, Name: name, Kind: kind, Signature: signature,
		Text: strings.TrimSpace(text), File: filepath.ToSlash(file), Line: p.Line,
	})
}

func (d *describer) source(node any) string {
	var b strings.Builder
	if err := format.Node(&b, d.pkg.fset, node); err != nil {
		d.err = err
	}
	return b.String()
}

func (d *describer) funcs(prefix string, funcs []*doc.Func) {
	for _, f := range funcs {
		bare := *f.Decl
		bare.Doc, bare.Body = nil, nil
		d.add(prefix+f.Name, map[bool]string{true: "func", false: "method"}[prefix == ""], d.source(&bare), f.Doc, f.Decl.Name.Pos())
	}
}

// values adds constants or variables; one without words of its own has those
// of its group.
func (d *describer) values(kind string, groups []*doc.Value) {
	for _, g := range groups {
		for _, s := range g.Decl.Specs {
			spec := s.(*ast.ValueSpec)
			text := spec.Doc.Text()
			if text == "" {
				text = spec.Comment.Text()
			}
			if text == "" {
				text = g.Doc
			}
			for _, name := range spec.Names {
				obj := d.pkg.types.Scope().Lookup(name.Name)
				if obj == nil || !obj.Exported() {
					continue
				}
				d.add(name.Name, kind, objectString(d.pkg.types, obj), text, name.Pos())
			}
		}
	}
}

func (d *describer) typ(t *doc.Type) {
	spec := t.Decl.Specs[0].(*ast.TypeSpec)
	bare := *t.Decl
	bare.Doc = nil
	d.add(t.Name, "type", d.source(&bare), t.Doc, spec.Name.Pos())
	s, ok := spec.Type.(*ast.StructType)
	if !ok {
		return
	}
	for _, f := range s.Fields.List {
		text := f.Doc.Text()
		if text == "" {
			text = f.Comment.Text()
		}
		for _, name := range f.Names {
			d.add(t.Name+"."+name.Name, "field", name.Name+" "+d.source(f.Type), text, name.Pos())
		}
	}
}

// objectString is how a constant or variable reads in its own package:
// "var E96 Series", "const Pole = 2".
func objectString(pkg *types.Package, obj types.Object) string {
	c, ok := obj.(*types.Const)
	if !ok {
		return types.ObjectString(obj, types.RelativeTo(pkg))
	}
	typ := " " + types.TypeString(c.Type(), types.RelativeTo(pkg))
	if b, ok := c.Type().(*types.Basic); ok && b.Info()&types.IsUntyped != 0 {
		typ = ""
	}
	return "const " + c.Name() + typ + " = " + c.Val().String()
}
