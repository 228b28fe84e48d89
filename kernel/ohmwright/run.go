package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"strings"
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
	c.Flags().DurationVar(&s.timeout, "timeout", defaultTimeout, "the longest a cell may run, 0 for no limit")
}

func runCommand() *cobra.Command {
	var s settings
	var out string
	var stay bool
	var poll time.Duration
	c := &cobra.Command{
		Use:   "run NOTE…",
		Short: "compute notes and store the results in them",
		Long: `run computes each note afresh and stores what its cells show in the file. A folder
is a design: all notes below it. With --set nothing is stored unless --out says where.

With --watch it goes on until it is interrupted: whenever a note, or a table that a note
reads, is saved, what depends on the change is computed again, stored, and shown: values
that moved, requirements that flipped, errors. Notes may come to a folder and go. What
another program saves meanwhile is not written over; the note is read and computed
again instead. A program that has the note open and computes in it itself, as a Jupyter
front end does, would be asked about the stored results with each save: use --out then.
The exit status is that of the notes as they were last.

Of a change that another machine makes in a folder of a network the system tells nothing;
with --poll 2s the files are looked at every two seconds instead.`,
		Args:              needNotes,
		ValidArgsFunction: completeNotes,
		RunE: func(c *cobra.Command, args []string) error {
			switch {
			case c.Flags().Changed("poll") && !stay:
				return errors.New("--poll says how often --watch looks at the files: add --watch")
			case c.Flags().Changed("poll") && poll < shortestPoll:
				return fmt.Errorf("--poll %v: write a duration of %v or more, such as 2s", poll, shortestPoll)
			case stay:
				return watchNotes(c.Context(), c.OutOrStdout(), c.ErrOrStderr(), args, s, out, poll)
			}
			return run(c.Context(), c.OutOrStdout(), c.ErrOrStderr(), args, s, out)
		},
	}
	s.flags(c)
	c.Flags().BoolVar(&s.json, "json", false, "print one line of JSON for each note instead of the table")
	c.Flags().BoolVar(&stay, "watch", false, "compute again whenever a note or a table that it reads changes, until interrupted")
	c.Flags().DurationVar(&poll, "poll", 0, "with --watch, look at the files so often in place of being told by the system")
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
// cannot be read are told of and counted; the others are computed. check, if
// given, looks at the paths before anything is computed.
func open(ctx context.Context, talk io.Writer, args []string, s settings, check func(paths []string) error) (notes []*noteFile, broken int, err error) {
	if err := s.check(); err != nil {
		return nil, 0, err
	}
	paths, err := findNotes(args)
	if err != nil {
		return nil, 0, err
	}
	if check != nil {
		if err := check(paths); err != nil {
			return nil, 0, err
		}
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
		if err := n.whatIf(ctx, s, notes); err != nil {
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
	var places map[string]string
	notes, broken, err := open(ctx, talk, args, s, func(paths []string) (err error) {
		places, err = destinations(paths, out)
		return err
	})
	if err != nil {
		return err
	}
	twice := twiceIn(notes)
	failed := broken > 0 || len(twice) > 0
	for i, n := range notes {
		// Stored before it is printed: a reader that goes away loses nothing.
		if err := n.write(talk, s, out, places[n.path]); err != nil {
			fmt.Fprintln(talk, "ohmwright: "+err.Error())
			failed = true
		}
		failed = failed || n.failed()
		if s.json {
			if err := printJSON(stdout, n); err != nil {
				return err
			}
		} else {
			if i > 0 {
				fmt.Fprintln(stdout)
			}
			n.print(stdout)
		}
		tell(talk, append(n.notices(), n.errors()...))
	}
	if len(twice) > 0 && !s.json {
		fmt.Fprintln(stdout)
	}
	if err := tellTwice(stdout, s, twice); err != nil {
		return err
	}
	if failed {
		return failures{}
	}
	return nil
}

// destinations says where the results of each note are stored: in the note, or
// where --out says.
func destinations(paths []string, out string) (map[string]string, error) {
	places := map[string]string{}
	if out == "" {
		for _, p := range paths {
			places[p] = p
		}
		return places, nil
	}
	info, err := os.Stat(out)
	folder := len(paths) > 1 || err == nil && info.IsDir()
	from := map[string]string{}
	for _, p := range paths {
		to := out
		if folder {
			to = filepath.Join(out, filepath.Base(p))
		} else if _, err := os.Stat(filepath.Dir(out)); err != nil {
			return nil, fmt.Errorf("--out %s: there is no folder %s", out, filepath.Dir(out))
		}
		if same(to, p) {
			return nil, fmt.Errorf("--out %s is the note itself; leave --out away to store the results in it", out)
		}
		if other := from[to]; other != "" {
			return nil, fmt.Errorf("--out %s: %s and %s would be stored in the same file; run them one by one", out, filepath.ToSlash(other), filepath.ToSlash(p))
		}
		from[to], places[p] = p, to
	}
	return places, nil
}

// width is the terminal's, 0 where standard output is none.
func width() int {
	if w, _, err := term.GetSize(int(os.Stdout.Fd())); err == nil {
		return w
	}
	return 0
}

// print shows all that the note came to.
func (n *noteFile) print(out io.Writer) {
	fmt.Fprintln(out, n.path)
	fmt.Fprint(out, render.Table(render.Options{Width: width()}, n.results...))
	for _, r := range n.results {
		for _, text := range printedBy(r) {
			fmt.Fprint(out, "\n"+text)
		}
	}
}

// printedBy is what a cell printed.
func printedBy(r *note.Result) (list []string) {
	for _, i := range r.Items {
		if p, ok := i.(*note.Printed); ok {
			text := strings.ReplaceAll(strings.TrimRight(p.Text, "\n"), "\n", "\n    ")
			list = append(list, fmt.Sprintf("%s printed\n    %s\n", r.Label, text))
		}
	}
	return list
}

func tell(talk io.Writer, list []string) {
	for _, text := range list {
		fmt.Fprint(talk, text)
	}
}

// notices are what is right but may surprise.
func (n *noteFile) notices() (list []string) {
	for _, r := range n.results {
		for _, i := range r.Items {
			if k, ok := i.(*note.Notice); ok {
				list = append(list, fmt.Sprintf("%s: %s, line %d: notice: %s\n", n.path, r.Label, k.Line, k.Text))
			}
		}
	}
	return list
}

// errors are those of the cells with the place where they are.
func (n *noteFile) errors() (list []string) {
	for i, r := range n.results {
		for k := range r.Errors {
			list = append(list, fmt.Sprintf("%s: %s", n.path, render.ErrorText(r.Errors[k:k+1], n.cells[i].Source())))
		}
	}
	return list
}

// write stores the results.
func (n *noteFile) write(talk io.Writer, s settings, out, to string) error {
	if out == "" && len(s.set) > 0 {
		fmt.Fprintf(talk, "%s: a what-if, so the note stays as it is; --out FILE stores the results\n", n.path)
		return nil
	}
	if err := n.store(); err != nil {
		return err
	}
	if out != "" {
		if err := os.MkdirAll(filepath.Dir(to), 0o777); err != nil {
			return err
		}
	}
	switch err := n.file.Write(to); {
	case errors.Is(err, notebook.ErrChanged):
		return fmt.Errorf("%s: %w", n.path, err)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("the results cannot be stored: %w; --out FILE stores them elsewhere", err)
	default:
		return err
	}
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
	note.BoardRecord
	Files  map[string]string `json:"files,omitempty"` // that cells read, with the first digits of their SHA-256
	Errors []jsonError       `json:"errors"`
}

type jsonError struct {
	Cell    string `json:"cell"`
	Line    int    `json:"line"`
	Column  int    `json:"column"`
	Message string `json:"message"`
}

func printJSON(w io.Writer, n *noteFile) error {
	j := jsonNote{Note: filepath.ToSlash(n.path), Values: map[string]note.ValueRecord{}, Requirements: []note.RequirementRecord{}, Files: map[string]string{}, Errors: []jsonError{}}
	for _, r := range n.results {
		rec := note.NewRecord(r)
		for k, v := range rec.Values {
			j.Values[k] = v
		}
		j.Requirements = append(j.Requirements, rec.Requirements...)
		maps.Copy(j.Files, rec.Files)
		j.Join(rec.BoardRecord)
		for _, e := range r.Errors {
			j.Errors = append(j.Errors, jsonError{r.Label, e.Line, e.Column, e.Error()})
		}
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	return enc.Encode(j)
}

// defaultTimeout is the longest that a cell may run unless told otherwise.
const defaultTimeout = time.Minute
