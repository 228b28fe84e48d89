package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/note"
	"ohmwright/kernel/notebook"
	"ohmwright/kernel/render"
)

func (s *settings) flags(c *cobra.Command) {
	c.Flags().StringArrayVar(&s.set, "set", nil, "what-if: compute with another input, `NAME=VALUE` (may be given several times)")
	c.Flags().BoolVar(&s.redesign, "redesign", false, "under --set, choose parts again instead of keeping those of the design as written")
	c.Flags().DurationVar(&s.timeout, "timeout", time.Minute, "the longest a cell may run, 0 for no limit")
}

func runCommand() *cobra.Command {
	var s settings
	var out string
	c := &cobra.Command{
		Use:   "run NOTE…",
		Short: "compute notes and store the results in them",
		Long: `run computes each note afresh and stores what its cells show in the file. A folder
is a design: all notes below it. With --set nothing is stored unless --out says where.`,
		Args:              needNotes,
		ValidArgsFunction: completeNotes,
		RunE: func(c *cobra.Command, args []string) error {
			return run(c.Context(), c.OutOrStdout(), c.ErrOrStderr(), args, s, out)
		},
	}
	s.flags(c)
	c.Flags().BoolVar(&s.json, "json", false, "print one line of JSON for each note instead of the table")
	c.Flags().StringVar(&out, "out", "", "store the results in this `FILE` (or folder, for several notes) and leave the note as it is")
	return c
}

func needNotes(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		return fmt.Errorf("%s needs a note or a folder of notes: ohmwright %s board.ipynb", c.Name(), c.Name())
	}
	return nil
}

// open loads and computes the notes that the arguments name. Notes that
// cannot be read are told of and counted; the others are computed.
func open(ctx context.Context, talk io.Writer, args []string, s settings) (notes []*noteFile, broken int, err error) {
	if err := checkSet(s, nil); err != nil {
		return nil, 0, err
	}
	paths, err := findNotes(args)
	if err != nil {
		return nil, 0, err
	}
	world, err := host.Load()
	if err != nil {
		return nil, 0, err
	}
	for _, p := range paths {
		n, err := load(p, world, s, talk)
		if err != nil {
			fmt.Fprintln(talk, "ohmwright: "+err.Error())
			broken++
			continue
		}
		n.results = n.note.Run(ctx)
		notes = append(notes, n)
		if ctx.Err() != nil {
			return notes, broken, errInterrupted
		}
	}
	if err := checkSet(s, notes); err != nil {
		return nil, broken, err
	}
	for _, n := range notes {
		if err := n.whatIf(ctx, s); err != nil {
			return nil, broken, err
		}
		if ctx.Err() != nil {
			return notes, broken, errInterrupted
		}
	}
	return notes, broken, nil
}

var errInterrupted = failures{"interrupted; no file was changed"}

func run(ctx context.Context, stdout, talk io.Writer, args []string, s settings, out string) error {
	notes, broken, err := open(ctx, talk, args, s)
	if err != nil {
		return err
	}
	failed := broken > 0
	for i, n := range notes {
		failed = failed || n.failed()
		if s.json {
			if err := printJSON(stdout, n); err != nil {
				return err
			}
		} else {
			if i > 0 {
				fmt.Fprintln(stdout)
			}
			fmt.Fprintln(stdout, n.path)
			fmt.Fprint(stdout, render.Table(render.Options{Width: width()}, n.results...))
		}
		n.tellErrors(talk)
		if err := n.write(talk, s, out, len(notes) > 1); err != nil {
			fmt.Fprintln(talk, "ohmwright: "+err.Error())
			failed = true
		}
	}
	if failed {
		return failures{}
	}
	return nil
}

// width is the terminal's, 0 where standard output is none.
func width() int {
	if w, _, err := term.GetSize(int(os.Stdout.Fd())); err == nil {
		return w
	}
	return 0
}

// tellErrors prints the errors of the cells with the place where they are.
func (n *noteFile) tellErrors(talk io.Writer) {
	for i, r := range n.results {
		for k := range r.Errors {
			fmt.Fprintf(talk, "%s: %s", n.path, render.ErrorText(r.Errors[k:k+1], n.cells[i].Source()))
		}
	}
}

// write stores the results where they belong.
func (n *noteFile) write(talk io.Writer, s settings, out string, several bool) error {
	if out == "" && len(s.set) > 0 {
		fmt.Fprintf(talk, "%s: a what-if, so the note stays as it is; --out FILE stores the results\n", n.path)
		return nil
	}
	to := n.path
	if out != "" {
		to = out
		if info, err := os.Stat(out); several || err == nil && info.IsDir() {
			if err := os.MkdirAll(out, 0o777); err != nil {
				return err
			}
			to = filepath.Join(out, filepath.Base(n.path))
		}
		if same(to, n.path) {
			return fmt.Errorf("--out %s is the note itself; leave --out away to store the results in it", out)
		}
	}
	if err := n.store(); err != nil {
		return err
	}
	err := n.file.Write(to)
	if errors.Is(err, notebook.ErrChanged) {
		return fmt.Errorf("%s: %w", n.path, err)
	}
	return err
}

func same(a, b string) bool {
	x, err1 := os.Stat(a)
	y, err2 := os.Stat(b)
	return err1 == nil && err2 == nil && os.SameFile(x, y)
}

// jsonNote is a note in run --json.
type jsonNote struct {
	Note         string                      `json:"note"`
	Values       map[string]note.ValueRecord `json:"values"`
	Requirements []note.RequirementRecord    `json:"requirements"`
	Errors       []jsonError                 `json:"errors"`
}

type jsonError struct {
	Cell    string `json:"cell"`
	Line    int    `json:"line"`
	Column  int    `json:"column"`
	Message string `json:"message"`
}

func printJSON(w io.Writer, n *noteFile) error {
	j := jsonNote{Note: filepath.ToSlash(n.path), Values: map[string]note.ValueRecord{}, Requirements: []note.RequirementRecord{}, Errors: []jsonError{}}
	for _, r := range n.results {
		rec := note.NewRecord(r)
		for k, v := range rec.Values {
			j.Values[k] = v
		}
		j.Requirements = append(j.Requirements, rec.Requirements...)
		for _, e := range r.Errors {
			j.Errors = append(j.Errors, jsonError{r.Label, e.Line, e.Column, e.Error()})
		}
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	return enc.Encode(j)
}
