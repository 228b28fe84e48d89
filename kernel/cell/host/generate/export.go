package main

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"go/types"
	"io"

	"golang.org/x/tools/go/gcexportdata"
)

// exportData packs the export data of the packages: a line with the Go
// release whose standard packages they are, then, imported ones before those
// that import them, for each a line "path length" and the data.
//
// Positions are left out. They would be paths of this machine, and the doc
// index has those that a user can look up.
func exportData(release string, pkgs []*source) ([]byte, error) {
	wanted := map[*types.Package]bool{}
	for _, p := range pkgs {
		wanted[p.types] = true
	}
	var out bytes.Buffer
	fmt.Fprintln(&out, release)
	seen := map[*types.Package]bool{}
	var visit func(*types.Package) error
	visit = func(p *types.Package) error {
		if seen[p] {
			return nil
		}
		seen[p] = true
		for _, dep := range p.Imports() {
			if err := visit(dep); err != nil {
				return err
			}
		}
		if !wanted[p] {
			return nil
		}
		var data bytes.Buffer
		if err := gcexportdata.Write(&data, nil, p); err != nil {
			return fmt.Errorf("%s: %w", p.Path(), err)
		}
		fmt.Fprintf(&out, "%s %d\n", p.Path(), data.Len())
		out.Write(data.Bytes())
		return nil
	}
	for _, p := range pkgs {
		if err := visit(p.types); err != nil {
			return nil, err
		}
	}
	return pack(out.Bytes())
}

func pack(data []byte) ([]byte, error) {
	var out bytes.Buffer
	w, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(data); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

func unpack(data []byte) ([]byte, error) {
	r, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	return io.ReadAll(r)
}
