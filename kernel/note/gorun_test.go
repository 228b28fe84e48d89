package note_test

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/parser"
	"go/printer"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
)

// The programs of the executor's tests, computed by the go command once for
// all tests of this package.

const programs = "../cell/exec/testdata/programs"

// goProgram is one ordinary Go program and what the go command says it prints.
type goProgram struct {
	name string // of the file, without .go
	fset *token.FileSet
	file *ast.File
	src  string
	want string
}

var goPrograms = sync.OnceValues(readAndRunPrograms)

// corpus gives the programs, or skips the test where there is no go command.
func corpus(t testing.TB) []*goProgram {
	t.Helper()
	if testing.Short() {
		t.Skip("builds hundreds of programs with the go command")
	}
	if _, err := exec.LookPath("go"); err != nil {
		t.Skip("no go command to compare with")
	}
	ps, err := goPrograms()
	if err != nil {
		t.Fatal(err)
	}
	return ps
}

func readAndRunPrograms() ([]*goProgram, error) {
	files, err := filepath.Glob(programs + "/*.go")
	if err != nil {
		return nil, err
	}
	if len(files) < 300 {
		return nil, fmt.Errorf("%s holds %d programs, at least 300 are wanted", programs, len(files))
	}
	var ps []*goProgram
	for _, f := range files {
		src, err := os.ReadFile(f)
		if err != nil {
			return nil, err
		}
		p := &goProgram{name: strings.TrimSuffix(filepath.Base(f), ".go"), fset: token.NewFileSet(), src: string(src)}
		if p.file, err = parser.ParseFile(p.fset, f, src, parser.SkipObjectResolution); err != nil {
			return nil, err
		}
		ps = append(ps, p)
	}
	return ps, runPrograms(ps)
}

// programMark stands on a line of its own before the output of each program.
const programMark = "\x01program "

// uncaught stands before the value of a panic that ended a program.
const uncaught = "uncaught: "

// runPrograms builds all programs as packages of one module, so that there is
// one link instead of hundreds, and runs them. With -trimpath the go command
// finds what it compiled in an earlier run although the folder is another.
func runPrograms(ps []*goProgram) error {
	dir, err := os.MkdirTemp("", "compared")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	write := func(name, text string) {
		name = filepath.Join(dir, name)
		if err == nil {
			err = os.MkdirAll(filepath.Dir(name), 0o755)
		}
		if err == nil {
			err = os.WriteFile(name, []byte(text), 0o644)
		}
	}
	write("go.mod", "module compared\n\ngo 1.26\n")
	var imports, calls strings.Builder
	for i, p := range ps {
		pkg := fmt.Sprintf("p%03d", i)
		var b bytes.Buffer
		if err := printAsPackage(&b, p, pkg); err != nil {
			return err
		}
		write(pkg+"/"+pkg+".go", b.String())
		fmt.Fprintf(&imports, "\t%q\n", "compared/"+pkg)
		fmt.Fprintf(&calls, "\trun(%s.Main)\n", pkg)
	}
	write("main.go", "package main\n\nimport (\n\t\"fmt\"\n"+imports.String()+")\n\nfunc run(f func()) {\n"+
		"\tfmt.Print(\"\\n"+`\x01program `+"\\n\")\n"+
		"\tdefer func() {\n\t\tif r := recover(); r != nil {\n\t\t\tfmt.Print(\""+uncaught+"\", r)\n\t\t}\n\t}()\n\tf()\n}\n\nfunc main() {\n"+calls.String()+"}\n")
	if err != nil {
		return err
	}
	cmd := exec.Command("go", "run", "-trimpath", ".")
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "GOWORK=off", "GOFLAGS=-mod=mod")
	var stdout, stderr bytes.Buffer
	cmd.Stdout, cmd.Stderr = &stdout, &stderr
	if err := cmd.Run(); err != nil {
		return fmt.Errorf("go run: %w\n%s", err, stderr.String())
	}
	parts := strings.Split(stdout.String(), "\n"+programMark+"\n")[1:]
	if len(parts) != len(ps) {
		return fmt.Errorf("%d programs gave %d outputs", len(ps), len(parts))
	}
	for i, p := range ps {
		// Types are printed with their package; the cells' package is called note.
		p.want = strings.ReplaceAll(parts[i], fmt.Sprintf("p%03d.", i), "note.")
	}
	return nil
}

// printAsPackage prints a program as a package whose main can be called.
func printAsPackage(b *bytes.Buffer, p *goProgram, pkg string) error {
	file := *p.file
	file.Name = ast.NewIdent(pkg)
	file.Decls = append([]ast.Decl(nil), p.file.Decls...)
	for i, d := range file.Decls {
		if fn, ok := d.(*ast.FuncDecl); ok && fn.Recv == nil && fn.Name.Name == "main" {
			main := *fn
			main.Name = ast.NewIdent("Main")
			file.Decls[i] = &main
		}
	}
	return printer.Fprint(b, p.fset, &file)
}
