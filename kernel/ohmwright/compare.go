package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"ohmwright/kernel/atomicfile"
	"ohmwright/kernel/prose"
	"ohmwright/kernel/render"
	"ohmwright/kernel/report"
)

func compareCommand() *cobra.Command {
	var s settings
	var out string
	var asText bool
	c := &cobra.Command{
		Use:   "compare OLD NEW",
		Short: "show which inputs changed, which results moved and which requirements flipped",
		Long: `compare computes two notes, or two folders of notes, and shows what parts them: first
requirements that flipped, then inputs, results in the order of the design with what
moved them, renamed values, and text word by word. Where cells stand and how a value is
spelt is no difference. Exit status 0 where nothing changed, 1 where something did.

It works as a diff driver of git, which hands it seven arguments (exit status 0 then), and
with --as-text as a text conversion; see the README for the lines of configuration.`,
		Args: func(c *cobra.Command, args []string) error {
			switch n := len(args); {
			case asText && n == 1, !asText && (n == 2 || n == 7 || n == 9):
				return nil
			case asText:
				return fmt.Errorf("compare --as-text needs one note: ohmwright compare --as-text board.ipynb")
			}
			return fmt.Errorf("compare needs two notes or two folders: ohmwright compare old.ipynb new.ipynb")
		},
		ValidArgsFunction: completeNotes,
		RunE: func(c *cobra.Command, args []string) error {
			if asText {
				return noteAsText(c.Context(), c.OutOrStdout(), c.ErrOrStderr(), args[0], s)
			}
			return compare(c.Context(), c.OutOrStdout(), c.ErrOrStderr(), args, s, out)
		},
	}
	c.Flags().DurationVar(&s.timeout, "timeout", defaultTimeout, "the longest a cell may run, 0 for no limit")
	c.Flags().BoolVar(&s.json, "json", false, "print one line of JSON")
	c.Flags().StringVar(&out, "out", "", "write a page with both workings beside each other to this `FILE.html`")
	c.Flags().BoolVar(&asText, "as-text", false, "print one note as text, for a text conversion of git")
	return c
}

func compare(ctx context.Context, stdout, talk io.Writer, args []string, s settings, out string) error {
	if out != "" && filepath.Ext(out) != ".html" {
		return fmt.Errorf("--out %s: the name of the page ends in .html", out)
	}
	driver := len(args) > 2
	old, now := args[0], args[1]
	if driver { // path old-file old-hex old-mode new-file new-hex new-mode [renamed-to similarity]
		old, now = args[1], args[4]
		s.beside = filepath.Dir(args[len(args)/9*7]) // of the new name, if it has one
	}
	was, err := version(ctx, talk, old, s, driver)
	if err != nil {
		return err
	}
	is, err := version(ctx, talk, now, s, driver)
	if err != nil {
		return err
	}
	if driver { // git's own files have names without a meaning
		for _, d := range []*report.Design{was, is} {
			for _, n := range d.Notes {
				n.Path = args[0]
			}
		}
	}
	changes := report.Compare(was, is)
	if len(args) == 9 { // it has another name now
		for _, n := range changes.Notes {
			n.Note, n.Was = args[7], args[0]
		}
	}
	switch {
	case s.json:
		enc := json.NewEncoder(stdout)
		enc.SetEscapeHTML(false)
		if changes.Notes == nil {
			changes.Notes = []*report.NoteChanges{}
		}
		if err := enc.Encode(changes); err != nil {
			return err
		}
	default:
		fmt.Fprint(stdout, report.Text(changes, width()))
	}
	if out != "" {
		page, err := report.HTML(changes)
		if err != nil {
			return err
		}
		if err := atomicfile.Write(out, []byte(page), nil); err != nil {
			return failures{"--out: " + err.Error()}
		}
	}
	if changes.Any() && !driver {
		return failures{}
	}
	return nil
}

// version computes one side of a comparison. git hands an empty file for a
// note that is not there.
func version(ctx context.Context, talk io.Writer, path string, s settings, driver bool) (*report.Design, error) {
	if driver {
		if info, err := os.Stat(path); path == os.DevNull || err == nil && info.Size() == 0 {
			return &report.Design{}, nil
		}
	}
	notes, broken, err := open(ctx, talk, []string{path}, s, nil)
	if err != nil {
		return nil, err
	}
	if broken > 0 {
		return nil, failures{path + " cannot be compared"}
	}
	d := &report.Design{}
	for _, n := range notes {
		name := n.path
		if rel, err := filepath.Rel(path, n.path); err == nil && rel != "." {
			name = filepath.ToSlash(rel)
		}
		r := &report.Note{Path: name, Note: n.note, Results: n.results}
		for _, c := range n.file.Cells() {
			if c.Type() == "markdown" {
				r.Prose = append(r.Prose, report.Prose{ID: c.ID(), Text: c.Source()})
			}
		}
		r.Prose = append(r.Prose, report.ShownProse(n.results)...)
		d.Notes = append(d.Notes, r)
	}
	return d, nil
}

// workingFolder is where the working tree has the one note that is called as
// a file is; "" if there is none, or several. git runs a text conversion at the
// top of the tree and says no more of the note than its name.
func workingFolder(path string) string {
	found := ""
	paths, err := findNotes([]string{"."})
	if err != nil {
		return ""
	}
	for _, p := range paths {
		if filepath.Base(p) == filepath.Base(path) {
			if found != "" {
				return ""
			}
			found = filepath.Dir(p)
		}
	}
	return found
}

// noteAsText prints what a note says and comes to, in the order of its cells.
func noteAsText(ctx context.Context, stdout, talk io.Writer, path string, s settings) error {
	s.beside = workingFolder(path)
	notes, broken, err := open(ctx, talk, []string{path}, s, nil)
	if err != nil || broken > 0 || len(notes) != 1 {
		if err == nil {
			err = failures{path + " is no single note"}
		}
		return err
	}
	n, code := notes[0], 0
	values := render.ValuesOf(n.results)
	for _, c := range n.file.Cells() {
		source := c.Source()
		if c.Type() == "markdown" {
			source, _ = prose.Replace(source, values.Text)
		}
		fmt.Fprintln(stdout, strings.TrimRight(source, "\n"))
		if c.Type() == "code" {
			r := n.results[code]
			code++
			for line := range strings.Lines(render.Text(r.Items, render.Options{}) + render.ErrorText(r.Errors, c.Source())) {
				fmt.Fprint(stdout, "    "+line)
			}
		}
		fmt.Fprintln(stdout)
	}
	return nil
}
