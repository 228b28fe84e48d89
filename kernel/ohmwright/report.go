package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"ohmwright/kernel/atomicfile"
	"ohmwright/kernel/pdf"
	"ohmwright/kernel/report"
)

// printTime is how long Chromium may take for a PDF where cells have no limit.
const printTime = time.Minute

type reportFlags struct{ out, title, what string }

func reportCommand() *cobra.Command {
	var s settings
	var f reportFlags
	c := &cobra.Command{
		Use:   "report NOTE… --out FILE",
		Short: "write the design rationale as one document",
		Long: `report computes notes, a folder of them being a design, and writes one document: the
verdict first, requirements with their margins, inputs and assumptions, the working of
each note, chosen parts, cautions, and the hashes of what it was computed from.

The ending of FILE says what is written: .html (a page that needs no script and nothing
from outside), .md (pictures go into the folder FILE_files beside it), .pdf (by Chromium,
within --timeout), .csv (the list that --what names). A document is written of a note
with failures, too; the exit status is 1 then.`,
		Args:              needNotes,
		ValidArgsFunction: completeNotes,
		RunE: func(c *cobra.Command, args []string) error {
			if err := f.check(c); err != nil {
				return err
			}
			return writeReport(c.Context(), c.ErrOrStderr(), args, s, f)
		},
	}
	s.flags(c)
	c.Flags().StringVar(&f.out, "out", "", "write the document to this `FILE`: .html, .md, .pdf or .csv")
	c.Flags().StringVar(&f.title, "title", "", "its title, else the first heading of the first note")
	c.Flags().StringVar(&f.what, "what", "parts", "the list that a .csv has: parts, inputs or requirements")
	return c
}

// check refuses flags that make no sense before anything is computed.
func (f *reportFlags) check(c *cobra.Command) error {
	kind := filepath.Ext(f.out)
	switch {
	case f.out == "":
		return errors.New("report needs --out FILE: ohmwright report notebooks --out rationale.html")
	case !slices.Contains([]string{".html", ".md", ".pdf", ".csv"}, kind):
		return fmt.Errorf("--out %s: the name of the document ends in .html, .md, .pdf or .csv", f.out)
	case kind != ".csv" && c.Flags().Changed("what"):
		return fmt.Errorf("--what %s goes with a .csv only: --out %s.csv", f.what, strings.TrimSuffix(f.out, kind))
	case !slices.Contains(report.Lists, f.what):
		return fmt.Errorf("--what %s: there is no such list; write %s", f.what, strings.Join(report.Lists, ", "))
	}
	return nil
}

func writeReport(ctx context.Context, talk io.Writer, args []string, s settings, f reportFlags) error {
	if filepath.Ext(f.out) == ".pdf" {
		if _, err := pdf.Find(); err != nil { // before a long computation
			return noPDF(f.out, err)
		}
	}
	notes, broken, err := open(ctx, talk, args, s, nil)
	if err != nil {
		return err
	}
	if len(notes) == 0 {
		return failures{}
	}
	doc := report.NewDocument(designOf(args, notes), f.title, Version)
	if err := f.write(ctx, doc, s); err != nil {
		return err
	}
	if doc.Fails() || broken > 0 {
		return failures{}
	}
	return nil
}

func (f *reportFlags) write(ctx context.Context, doc *report.Document, s settings) error {
	var data []byte
	switch filepath.Ext(f.out) {
	case ".html", ".pdf":
		page, err := doc.HTML()
		if err != nil {
			return err
		}
		data = []byte(page)
		if filepath.Ext(f.out) == ".pdf" {
			limit := s.timeout
			if limit == 0 {
				limit = printTime
			}
			ctx, stop := context.WithTimeout(ctx, limit)
			defer stop()
			if data, err = pdf.Print(ctx, page); err != nil {
				return noPDF(f.out, err)
			}
		}
	case ".md":
		folder := f.out + "_files"
		text, pictures := doc.Markdown(filepath.Base(folder))
		data = []byte(text)
		if err := writePictures(folder, pictures); err != nil {
			return failures{"--out: " + err.Error()}
		}
	case ".csv":
		text, err := doc.CSV(f.what)
		if err != nil {
			return err
		}
		data = []byte(text)
	}
	if err := atomicfile.Write(f.out, data, nil); err != nil {
		return failures{"--out: " + err.Error()}
	}
	return nil
}

// noPDF says what to do instead.
func noPDF(out string, err error) error {
	html := strings.TrimSuffix(out, ".pdf") + ".html"
	return failures{fmt.Sprintf("%s is not written: %v; write --out %s, open it in a browser and print it", out, err, html)}
}

func writePictures(folder string, pictures map[string][]byte) error {
	if len(pictures) == 0 {
		return nil
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	for _, name := range slices.Sorted(maps.Keys(pictures)) {
		if err := atomicfile.Write(filepath.Join(folder, name), pictures[name], nil); err != nil {
			return err
		}
	}
	return nil
}

// designOf names each note by its place below the folder that was given, so
// that nothing of the machine is in a document.
func designOf(args []string, notes []*noteFile) *report.Design {
	d := &report.Design{}
	var twice twins
	for _, n := range notes {
		name := filepath.Base(n.path)
		for _, a := range args {
			if rel, err := filepath.Rel(a, n.path); err == nil && rel != "." && filepath.IsLocal(rel) {
				name = filepath.ToSlash(rel)
			}
		}
		n.results = twice.marked(n.results, name)
		r := &report.Note{Path: name, Note: n.note, Results: n.results, Files: []report.File{{Name: name, Hash: n.hash}}}
		code := 0
		for _, c := range n.file.Cells() {
			x := report.Cell{}
			switch c.Type() {
			case "code":
				x.Result, x.Code = n.results[code], c.Source()
				code++
			case "markdown":
				x.Markdown, x.Attachments = c.Source(), c.Attachments()
			default:
				continue
			}
			r.Cells = append(r.Cells, x)
		}
		for _, file := range slices.Sorted(maps.Keys(n.read)) {
			r.Files = append(r.Files, report.File{Name: file, Hash: n.read[file]})
		}
		d.Notes = append(d.Notes, r)
	}
	return d
}
