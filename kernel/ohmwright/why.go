package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"

	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
)

func whyCommand() *cobra.Command {
	var s settings
	c := &cobra.Command{
		Use:   "why NOTE NAME",
		Short: "show how a value was derived, down to its inputs and their sources",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) != 2 {
				return fmt.Errorf("why needs a note and a name: ohmwright why board.ipynb Vout")
			}
			return nil
		},
		ValidArgsFunction: completeNames,
		RunE: func(c *cobra.Command, args []string) error {
			return why(c.Context(), c.OutOrStdout(), c.ErrOrStderr(), args[0], args[1], s)
		},
	}
	s.flags(c)
	c.Flags().BoolVar(&s.json, "json", false, "print the tree as JSON")
	return c
}

// completeNames offers the names that the note defines.
func completeNames(c *cobra.Command, args []string, prefix string) ([]string, cobra.ShellCompDirective) {
	if len(args) == 0 {
		return completeNotes(c, args, prefix)
	}
	if len(args) > 1 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	notes, _, err := open(c.Context(), io.Discard, args[:1], settings{}, nil)
	if err != nil || len(notes) != 1 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var names []string
	for _, r := range notes[0].results {
		names = append(names, r.Defines...)
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}

func why(ctx context.Context, stdout, talk io.Writer, path, name string, s settings) error {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return fmt.Errorf("%s is a folder: name the note that defines %s", path, name)
	}
	notes, broken, err := open(ctx, talk, []string{path}, s, nil)
	if err != nil {
		return err
	}
	if broken > 0 {
		return failures{}
	}
	w, err := notes[0].note.Why(name)
	if err != nil {
		return failures{path + ": " + err.Error()}
	}
	if s.json {
		enc := json.NewEncoder(stdout)
		enc.SetEscapeHTML(false)
		return enc.Encode(whyJSON(w))
	}
	_, err = fmt.Fprint(stdout, render.WhyText(w, width()))
	return err
}

// jsonWhy is a node of why --json. Again: its inputs stand where the name
// first appears in the tree.
type jsonWhy struct {
	Name        string     `json:"name"`
	Formula     string     `json:"formula"`
	Numbers     string     `json:"numbers"`
	Text        string     `json:"text"`
	SI          *float64   `json:"si"`
	Unit        string     `json:"unit"`
	Cell        string     `json:"cell"`
	Description string     `json:"description"`
	Source      string     `json:"source"`
	Reason      string     `json:"reason"`
	Again       bool       `json:"again,omitempty"`
	Inputs      []*jsonWhy `json:"inputs"`

	Files map[string]string `json:"files,omitempty"` // that the definition reads, with the first digits of their SHA-256
}

func whyJSON(w *note.Why) *jsonWhy {
	e := w.Entry
	j := &jsonWhy{Name: e.Name, Cell: w.Cell, Description: e.Description, Source: e.Source, Reason: e.Reason, Again: w.Again, Inputs: []*jsonWhy{}}
	for _, f := range e.Files {
		if j.Files == nil {
			j.Files = map[string]string{}
		}
		j.Files[f.Name] = f.Hash
	}
	rec := note.NewRecord(&note.Result{Label: w.Cell, Items: []note.Item{e}})
	if v, ok := rec.Values[e.Name]; ok {
		j.Text, j.SI, j.Unit = v.Text, v.SI, v.Unit
	} else if e.Value.Kind == exec.KindOther {
		j.Text = e.Value.Type // a function has no value to print
	} else {
		j.Text = e.Value.Text
	}
	if e.Formula != nil {
		j.Formula = render.Formula(e.Formula, render.Plain)
		j.Numbers = render.Numbers(e.Formula, render.Plain, 4)
	}
	for _, i := range w.Inputs {
		j.Inputs = append(j.Inputs, whyJSON(i))
	}
	return j
}
