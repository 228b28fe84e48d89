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
	"ohmwright/kernel/folder"
	"ohmwright/kernel/notebook"
	"ohmwright/kernel/pdf"
	"ohmwright/kernel/report"
)

// printTime is how long Chromium may take for a PDF where cells have no limit.
const printTime = time.Minute

type reportFlags struct{ out, title, revision, author, what, paper string }

// papers are what --paper names.
var papers = map[string]pdf.Paper{"a4": pdf.A4, "letter": pdf.Letter}

func reportCommand() *cobra.Command {
	var s settings
	var f reportFlags
	c := &cobra.Command{
		Use:   "report NOTE… --out FILE",
		Short: "write the design rationale as one document",
		Long: `report computes notes, a folder of them being a design, and writes one document: the
verdict first, requirements with their margins and in each operating case, inputs and
assumptions, the working of each note, chosen parts, cautions, and the hashes of what it
was computed from. Pictures in the text are those that a note holds or that are files
below its folder.

The ending of FILE says what is written: .html (a page that needs no script and nothing
from outside), .md (pictures go into the folder FILE_files beside it), .pdf (by Chromium,
within --timeout), .csv (the list that --what names). A document is written of a note
with failures, too; the exit status is 1 then. It says so where the results stored in
the notes are not its own, and where --set changed inputs.`,
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
	c.Flags().StringVar(&f.title, "title", "", "its title, else the heading of the only note, of README.ipynb or 00-….ipynb, or the name of the folder")
	c.Flags().StringVar(&f.revision, "revision", "", "the revision that its head and foot name, a `TEXT`")
	c.Flags().StringVar(&f.author, "author", "", "the author that they name, a `TEXT`")
	c.Flags().StringVar(&f.what, "what", "parts", "the list that a .csv has: parts, inputs, requirements or cases")
	c.Flags().StringVar(&f.paper, "paper", "a4", "the paper of a .pdf: a4 or letter")
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
	case kind == ".csv" && f.revision+f.author != "":
		return errors.New("--revision and --author stand at the head of a document, and a .csv has none: leave them out, or write --out " + strings.TrimSuffix(f.out, kind) + ".html")
	case kind != ".pdf" && c.Flags().Changed("paper"):
		return fmt.Errorf("--paper %s goes with a .pdf only: a browser that prints asks for the paper", f.paper)
	case papers[f.paper] == pdf.Paper{}:
		return fmt.Errorf("--paper %s: there is no such paper; write a4 or letter", f.paper)
	case !slices.Contains(report.Lists, f.what):
		return fmt.Errorf("--what %s: there is no such list; write %s", f.what, strings.Join(report.Lists, ", "))
	}
	if info, err := os.Stat(f.out); err == nil && info.IsDir() {
		return fmt.Errorf("--out %s is a folder: write --out %s", f.out, filepath.ToSlash(filepath.Join(f.out, "rationale"+kind)))
	}
	if info, err := os.Stat(filepath.Dir(f.out)); err != nil || !info.IsDir() {
		return fmt.Errorf("--out %s: there is no folder %s", f.out, filepath.ToSlash(filepath.Dir(f.out)))
	}
	return nil
}

func writeReport(ctx context.Context, talk io.Writer, args []string, s settings, f reportFlags) error {
	if filepath.Ext(f.out) == ".pdf" {
		if _, err := pdf.Find(); err != nil { // before a long computation
			return noPDF(f.out, err)
		}
	}
	var paths []string
	notes, broken, err := open(ctx, talk, args, s, func(found []string) error { paths = found; return nil })
	if err != nil {
		return err
	}
	if len(notes) == 0 {
		return failures{}
	}
	stored := make([][]string, len(notes)) // before a design adds what several notes say
	if len(s.set) == 0 {                   // a what-if is meant to differ
		for i, n := range notes {
			if stored[i], err = n.moved(); err != nil {
				return err
			}
			if len(stored[i]) > 0 {
				fmt.Fprintf(talk, "%s: its stored results are not those of the document: ohmwright run stores them, ohmwright verify lists what differs\n", n.path)
			}
		}
	}
	design := designOf(args, notes)
	design.Folder, design.Revision, design.Author = commonFolder(notes), f.revision, f.author
	for i, moved := range stored {
		design.Notes[i].Stored = moved
	}
	design.WhatIf, design.Redesign = s.set, s.redesign
	for _, p := range paths {
		if !slices.ContainsFunc(notes, func(n *noteFile) bool { return n.path == p }) {
			design.Unread = append(design.Unread, nameOf(args, p)+" is not in this document: it cannot be read as a note")
		}
	}
	doc := report.NewDocument(design, f.title, Version)
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
			timed, stop := context.WithTimeout(ctx, limit)
			defer stop()
			data, err = pdf.Print(timed, page, papers[f.paper])
			switch {
			case ctx.Err() != nil:
				return errInterrupted
			case err != nil:
				return noPDF(f.out, err)
			}
		}
	case ".md":
		folder := f.out + "_files"
		text, pictures := doc.Markdown(filepath.Base(folder))
		data = []byte(text)
		if err := writePictures(folder, pictures); err != nil {
			return notWritten(f.out, err)
		}
	case ".csv":
		text, err := doc.CSV(f.what)
		if err != nil {
			return err
		}
		data = []byte(text)
	}
	if err := atomicfile.Write(f.out, data, nil); err != nil {
		return notWritten(f.out, err)
	}
	return nil
}

// notWritten leaves the name of the file out under which the text was stored
// before it takes its place.
func notWritten(out string, err error) error {
	what := withoutPath(err)
	var link *os.LinkError
	if errors.As(err, &link) {
		what = link.Err
	}
	return failures{fmt.Sprintf("%s is not written: %v; an older one stays as it was, and --out names another place", out, what)}
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

// nameOf names a note by its place below the folder that was given, so that
// nothing of the machine is in a document.
func nameOf(args []string, note string) string {
	name := filepath.Base(note)
	for _, a := range args {
		if rel, err := filepath.Rel(a, note); err == nil && rel != "." && filepath.IsLocal(rel) {
			name = filepath.ToSlash(rel)
		}
	}
	return name
}

// commonFolder is the name of the folder that all notes are in.
func commonFolder(notes []*noteFile) string {
	common := ""
	for _, n := range notes {
		in, err := filepath.Abs(filepath.Dir(n.path))
		if err != nil {
			return ""
		}
		if common == "" {
			common = in
		}
		for !below(common, in) && common != filepath.Dir(common) {
			common = filepath.Dir(common)
		}
	}
	return filepath.Base(common)
}

// moved lists what a note has stored otherwise than it was computed now. What
// was never run has nothing to differ.
func (n *noteFile) moved() (list []string, err error) {
	if !slices.ContainsFunc(n.cells, func(c *notebook.Cell) bool { return len(c.Outputs()) > 0 }) {
		return nil, nil
	}
	diffs, err := n.differences(defaultTolerance)
	for _, d := range diffs {
		list = append(list, d.Cell+", "+d.What)
	}
	return list, err
}

func designOf(args []string, notes []*noteFile) *report.Design {
	d := &report.Design{}
	var twice twins
	for _, n := range notes {
		name := nameOf(args, n.path)
		n.results = twice.marked(n.results, name)
		r := &report.Note{Path: name, Note: n.note, Results: n.results, Open: folder.Of(filepath.Dir(n.path)).Open, Files: []report.File{{Name: name, Hash: n.hash}}}
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
