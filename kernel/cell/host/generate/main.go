// Generate writes what the host package embeds: export data of the packages
// that cells may use, tables of their compiled functions, and an index of
// their documentation. Run it after any change of units, of a lib package or
// of the builtin functions:
//
//	go generate ./kernel/cell/host
//
// With -check it writes nothing, lists the files that are out of date and
// exits with status 1 if there are any.
package main

import (
	"bytes"
	"flag"
	"fmt"
	"go/version"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

func main() {
	check := flag.Bool("check", false, "write nothing; exit with status 1 if a file is out of date")
	flag.Parse()
	stale, err := run(*check)
	if err != nil {
		fmt.Fprintln(os.Stderr, "generate:", err)
		os.Exit(2)
	}
	if *check && len(stale) > 0 {
		fmt.Fprintln(os.Stderr, "out of date (mend with: go generate ./kernel/cell/host):")
		for _, name := range stale {
			fmt.Fprintln(os.Stderr, "  "+name)
		}
		os.Exit(1)
	}
}

// run returns the files that were out of date, after writing them anew
// unless it only checks.
func run(check bool) (stale []string, err error) {
	root, err := moduleRoot()
	if err != nil {
		return nil, err
	}
	release, err := goRelease()
	if err != nil {
		return nil, err
	}
	host := filepath.Join(root, "kernel", "cell", "host")
	// Another release has other standard packages, which says nothing about
	// whether somebody forgot to generate.
	if made := madeWith(filepath.Join(host, "export.bin")); check && made != "" && made != release {
		return nil, fmt.Errorf("the files were made with %s and cannot be checked with %s", made, release)
	}
	pkgs, err := load(root)
	if err != nil {
		return nil, err
	}
	if problems := audit(pkgs); len(problems) > 0 {
		return nil, fmt.Errorf("packages are not fit for cells:\n  %s", strings.Join(problems, "\n  "))
	}
	files := map[string][]byte{}
	for name, write := range map[string]func() ([]byte, error){
		"export.bin":         func() ([]byte, error) { return exportData(release, pkgs) },
		"docs.json":          func() ([]byte, error) { return docIndex(root, pkgs) },
		"symbols/symbols.go": func() ([]byte, error) { return symbolTables(host, pkgs) },
	} {
		if files[name], err = write(); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
	}
	for name, content := range files {
		path := filepath.Join(host, filepath.FromSlash(name))
		if same(path, content) {
			continue
		}
		stale = append(stale, name)
		if check {
			continue
		}
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			return nil, err
		}
		if err := os.WriteFile(path, content, 0o666); err != nil {
			return nil, err
		}
	}
	slices.Sort(stale)
	return stale, nil
}

// same compares what is in the file with what should be. Packed data is
// compared unpacked, because another Go release may pack it differently.
func same(path string, content []byte) bool {
	have, err := os.ReadFile(path)
	if err != nil {
		return false
	}
	if bytes.Equal(have, content) {
		return true
	}
	a, errA := unpack(have)
	b, errB := unpack(content)
	return errA == nil && errB == nil && bytes.Equal(a, b)
}

func moduleRoot() (string, error) {
	out, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}").Output()
	if err != nil {
		return "", fmt.Errorf("go list -m: %w", err)
	}
	return strings.TrimSpace(string(out)), nil
}

// goRelease returns the release of the Go tool without its patch level, "go1.26".
func goRelease() (string, error) {
	out, err := exec.Command("go", "env", "GOVERSION").Output()
	if err != nil {
		return "", fmt.Errorf("go env GOVERSION: %w", err)
	}
	lang := version.Lang(strings.TrimSpace(string(out)))
	if lang == "" {
		return "", fmt.Errorf("go env GOVERSION: %s is not a release", strings.TrimSpace(string(out)))
	}
	return lang, nil
}

// madeWith returns the release that the export data was made with, "" if it
// does not say.
func madeWith(path string) string {
	packed, err := os.ReadFile(path)
	if err != nil {
		return ""
	}
	data, err := unpack(packed)
	if err != nil {
		return ""
	}
	line, _, _ := bytes.Cut(data, []byte("\n"))
	return string(line)
}
