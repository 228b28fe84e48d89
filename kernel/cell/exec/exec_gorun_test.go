package exec_test

import (
	"bytes"
	"context"
	"fmt"
	"go/ast"
	"go/parser"
	"go/printer"
	"go/token"
	"os"
	osexec "os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"ohmwright/kernel/cell/exec"
)

// A marker stands on a line of its own before the output of each program.
const marker = "\x01program "

// differs holds the programs on which Go's specification leaves both right.
var differs = map[string]string{
	"string_append_to_bytes": "the order of a conversion and a call that changes its operand is not specified",
}

// goProgram is one of testdata/programs, made a package of its own.
type goProgram struct {
	name string // of the file, without .go
	pkg  string // p000, …
	src  string
}

// TestAgainstGo runs every program of testdata/programs with the go command and
// in the executor: both must print the same.
func TestAgainstGo(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("-short: runs the go command")
	}
	tool, err := osexec.LookPath("go")
	if err != nil {
		t.Skip("no go command to compare with")
	}
	files, err := filepath.Glob("testdata/programs/*.go")
	if err != nil || len(files) == 0 {
		t.Fatal("no programs in testdata/programs", err)
	}
	var ps []goProgram
	for i, f := range files {
		p, err := asPackage(f, fmt.Sprintf("p%03d", i))
		if err != nil {
			t.Fatal(err)
		}
		ps = append(ps, p)
	}
	want := goOutputs(t, tool, ps)
	for _, p := range ps {
		t.Run(p.name, func(t *testing.T) {
			t.Parallel()
			if why := differs[p.name]; why != "" {
				t.Skip(why)
			}
			got := executorOutput(t, p)
			if got != want[p.pkg] {
				t.Errorf("the executor printed\n%s\nGo printed\n%s", got, want[p.pkg])
			}
		})
	}
}

// asPackage reads a program and renames its package and its main.
func asPackage(file, pkg string) (goProgram, error) {
	fset := token.NewFileSet()
	f, err := parser.ParseFile(fset, file, nil, parser.SkipObjectResolution)
	if err != nil {
		return goProgram{}, err
	}
	f.Name.Name = pkg
	for _, d := range f.Decls {
		if fn, ok := d.(*ast.FuncDecl); ok && fn.Recv == nil && fn.Name.Name == "main" {
			fn.Name.Name = "Main"
		}
	}
	var b bytes.Buffer
	if err := printer.Fprint(&b, fset, f); err != nil {
		return goProgram{}, err
	}
	return goProgram{strings.TrimSuffix(filepath.Base(file), ".go"), pkg, b.String()}, nil
}

// goOutputs builds all programs as one and runs it: one link instead of hundreds.
func goOutputs(t *testing.T, tool string, ps []goProgram) map[string]string {
	t.Helper()
	dir := t.TempDir()
	write := func(name, text string) {
		name = filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write("go.mod", "module compared\n\ngo 1.26\n")
	var imports, calls strings.Builder
	for _, p := range ps {
		write(p.pkg+"/"+p.pkg+".go", p.src)
		fmt.Fprintf(&imports, "\t%q\n", "compared/"+p.pkg)
		fmt.Fprintf(&calls, "\trun(%q, %s.Main)\n", p.pkg, p.pkg)
	}
	write("main.go", "package main\n\nimport (\n\t\"fmt\"\n"+imports.String()+")\n\nfunc run(name string, f func()) {\n"+
		"\tfmt.Printf(\"\\n%s%s\\n\", "+fmt.Sprintf("%q", marker)+", name)\n"+
		"\tdefer func() {\n\t\tif r := recover(); r != nil {\n\t\t\tfmt.Print(\"uncaught: \", r)\n\t\t}\n\t}()\n\tf()\n}\n\nfunc main() {\n"+calls.String()+"}\n")
	cmd := osexec.Command(tool, "run", ".")
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "GOWORK=off", "GOFLAGS=-mod=mod")
	var stdout, stderr bytes.Buffer
	cmd.Stdout, cmd.Stderr = &stdout, &stderr
	if err := cmd.Run(); err != nil {
		t.Fatalf("go run: %v\n%s", err, stderr.String())
	}
	out := map[string]string{}
	for _, part := range strings.Split(stdout.String(), "\n"+marker)[1:] {
		name, text, _ := strings.Cut(part, "\n")
		out[name] = text
	}
	return out
}

func executorOutput(t *testing.T, p goProgram) string {
	c, err := compile("compared/"+p.pkg, p.src, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, obj := range c.uses {
		if r := world().Refused(obj); r != nil {
			t.Skip(r.Msg)
		}
	}
	out, _, err := c.run(&exec.Run{Ctx: context.Background()}, "Main")
	if err != nil {
		out += "uncaught: " + uncaught(err)
	}
	return out
}

// uncaught words a fault as the recovered value prints in Go.
func uncaught(err error) string {
	f := err.(*exec.Fault)
	if r, ok := f.Err.(runtime.Error); ok {
		return r.Error()
	}
	return strings.TrimPrefix(f.Msg, "panic: ")
}
