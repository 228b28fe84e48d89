package main

import (
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"html/template"
	"io"
	"math"
	"os"

	"github.com/spf13/cobra"

	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
	"ohmwright/units"
)

func whyCommand() *cobra.Command {
	var s settings
	var o note.WhyOptions
	var uses, page bool
	c := &cobra.Command{
		Use:   "why NOTE NAME",
		Short: "show how a value was derived, down to its inputs and their sources",
		Long: `why computes a note and shows how a value was derived, down to its inputs and their
sources. NAME is a name of the note, a field of one (i.Peak), the reference of a part
(R5) or the identifier of a requirement (PWR-3).`,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) != 2 {
				return fmt.Errorf("why needs a note and a name: ohmwright why board.ipynb Vout")
			}
			return nil
		},
		ValidArgsFunction: completeNames,
		RunE: func(c *cobra.Command, args []string) error {
			switch {
			case o.Depth < 0:
				return fmt.Errorf("--depth %d: write a number from 0 up, 0 for down to the inputs", o.Depth)
			case page && s.json:
				return fmt.Errorf("--html and --json are two forms of one tree: write one of them")
			case uses && (page || o.Inside || o.Depth > 0):
				return fmt.Errorf("--uses is a list and no tree: --html, --depth and --inside do not go with it")
			}
			if uses {
				return touches(c.Context(), c.OutOrStdout(), c.ErrOrStderr(), args[0], args[1], s)
			}
			return why(c.Context(), c.OutOrStdout(), c.ErrOrStderr(), args[0], args[1], s, o, page)
		},
	}
	s.flags(c)
	c.Flags().BoolVar(&s.json, "json", false, "print the tree as JSON")
	c.Flags().IntVar(&o.Depth, "depth", 0, "how many steps to go towards the inputs (0: down to them)")
	c.Flags().BoolVar(&page, "html", false, "print the tree as a page whose parts can be folded")
	c.Flags().BoolVar(&uses, "uses", false, "show the other direction: what depends on NAME, and how far it moves with it")
	c.Flags().BoolVar(&o.Inside, "inside", false, "tell the steps inside lib functions for every value, not only for NAME")
	return c
}

// completeNames offers the names that the note defines, its parts and requirements.
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
	return append(names, notes[0].note.Called()...), cobra.ShellCompDirectiveNoFileComp
}

func why(ctx context.Context, stdout, talk io.Writer, path, name string, s settings, o note.WhyOptions, page bool) error {
	n, err := single(ctx, talk, path, name, s)
	if err != nil {
		return err
	}
	w, err := n.note.Why(ctx, name, o)
	if err != nil {
		return failures{path + ": " + err.Error()}
	}
	if s.json {
		enc := json.NewEncoder(stdout)
		enc.SetEscapeHTML(false)
		return enc.Encode(whyJSON(w))
	}
	if page {
		// What render makes is escaped; the name is one of the note's.
		return whyPage.Execute(stdout, map[string]any{
			"Name": name, "Tree": template.HTML(render.HTML([]note.Item{&note.Derivation{Of: name, Why: w}}, render.MathML)),
		})
	}
	_, err = fmt.Fprint(stdout, render.WhyText(w, width()))
	return err
}

// whyPage is a derivation as a page of its own, without a script.
var whyPage = template.Must(template.New("why").Parse(`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Where {{.Name}} comes from</title>
<style>
:root { color-scheme: light dark; }
body { font: 1rem/1.5 system-ui, sans-serif; max-width: 60rem; margin: 2rem auto; padding: 0 1rem; }
td { padding: .1rem .9rem .1rem 0; vertical-align: top; }
</style>
</head>
<body>
<main>
<h1>Where {{.Name}} comes from</h1>
{{.Tree}}</main>
</body>
</html>
`))

// single computes the note that is asked about a name.
func single(ctx context.Context, talk io.Writer, path, name string, s settings) (*noteFile, error) {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return nil, fmt.Errorf("%s is a folder: name the note that defines %s", path, name)
	}
	notes, broken, err := open(ctx, talk, []string{path}, s, nil)
	if err != nil {
		return nil, err
	}
	if broken > 0 {
		return nil, failures{}
	}
	return notes[0], nil
}

// touches shows what depends on a name.
func touches(ctx context.Context, stdout, talk io.Writer, path, name string, s settings) error {
	n, err := single(ctx, talk, path, name, s)
	if err != nil {
		return err
	}
	t, err := n.note.Touches(ctx, name)
	if err != nil {
		return failures{path + ": " + err.Error()}
	}
	if s.json {
		enc := json.NewEncoder(stdout)
		enc.SetEscapeHTML(false)
		return enc.Encode(touchesJSON(t))
	}
	_, err = fmt.Fprint(stdout, render.TouchesText(t, render.Options{Width: width()}))
	return err
}

// jsonTouches is what why --uses --json prints. Moves are for a step of the
// name: of a share of the value, or in its coherent unit; null where unknown.
type jsonTouches struct {
	Name         string                   `json:"name"`
	Reference    string                   `json:"reference,omitempty"` // of the part that was asked for
	Step         string                   `json:"step"`
	Trouble      string                   `json:"trouble,omitempty"`
	Values       []jsonTouched            `json:"values"`
	Requirements []jsonTouchedRequirement `json:"requirements"`
}

type jsonTouched struct {
	Name    string   `json:"name"`
	Text    string   `json:"text"`
	Through []string `json:"through"`
	Cell    string   `json:"cell"`
	Share   *float64 `json:"moves_share"`
	SI      *float64 `json:"moves_si"`
}

type jsonTouchedRequirement struct {
	Text    string   `json:"text"`
	Holds   bool     `json:"holds"`
	Margin  *float64 `json:"margin_si"`
	SI      *float64 `json:"margin_moves_si"`
	Worst   *float64 `json:"worst_margin_si"` // null where nothing spreads
	WorstSI *float64 `json:"worst_margin_moves_si"`
	Unit    string   `json:"unit"` // of the four
}

func touchesJSON(t *note.Touches) jsonTouches {
	j := jsonTouches{Name: t.Entry.Name, Reference: t.Reference, Step: t.Step, Trouble: t.Trouble, Values: []jsonTouched{}, Requirements: []jsonTouchedRequirement{}}
	for _, v := range t.Values {
		for _, e := range v.Effects {
			x := jsonTouched{Name: e.Name, Text: e.Value.String(), Through: v.Through, Cell: v.Cell}
			if moves := e.Moves.SI(); e.Known && e.Percent {
				x.Share = &moves
			} else if e.Known {
				x.SI = &moves
			}
			j.Values = append(j.Values, x)
		}
	}
	for _, q := range t.Requirements {
		si := func(q *units.Quantity) *float64 {
			if q == nil || math.IsNaN(q.SI()) || math.IsInf(q.SI(), 0) {
				return nil
			}
			si := q.SI()
			return &si
		}
		r := jsonTouchedRequirement{Text: q.Text, Holds: q.Holds, Margin: si(q.Margin), SI: si(q.Moves), Worst: si(q.Worst), WorstSI: si(q.WorstMoves)}
		if m := cmp.Or(q.Margin, q.Worst); m != nil {
			r.Unit = m.SIUnit()
		}
		j.Requirements = append(j.Requirements, r)
	}
	return j
}

// jsonWhy is a node of why --json. Again: its inputs stand where the name
// first appears in the tree.
type jsonWhy struct {
	Name        string   `json:"name"`
	Formula     string   `json:"formula"`
	Numbers     string   `json:"numbers"`
	Text        string   `json:"text"`
	SI          *float64 `json:"si"`
	Unit        string   `json:"unit"`
	Cell        string   `json:"cell"`
	Description string   `json:"description"`
	Source      string   `json:"source"`
	Reason      string   `json:"reason"`
	Again       bool     `json:"again,omitempty"`
	Reference   string   `json:"reference,omitempty"` // of the part that was asked for
	// Requirement is the one that was asked for; Formula and Inputs are those of
	// its condition, or of the stress of a rating.
	Requirement *note.RequirementRecord `json:"requirement,omitempty"`
	// Inside are the lib functions that its definition calls, step by step at
	// the nominal values; of the value asked for, or with --inside.
	Inside []jsonInside `json:"inside,omitempty"`
	Deeper []string     `json:"deeper,omitempty"` // inputs that --depth leaves out
	Inputs []*jsonWhy   `json:"inputs"`
	// Files are those that the definition reads, with the first digits of their SHA-256.
	Files map[string]string `json:"files,omitempty"`
}

type jsonInside struct {
	Function string     `json:"function"`
	Trouble  string     `json:"trouble,omitempty"` // why there are no steps
	Steps    []jsonStep `json:"steps"`
}

type jsonStep struct {
	Name    string   `json:"name"`
	Text    string   `json:"text"`
	SI      *float64 `json:"si"`
	Formula string   `json:"formula"`
	Numbers string   `json:"numbers"`
}

func whyJSON(w *note.Why) *jsonWhy {
	e := w.Entry
	j := &jsonWhy{Name: e.Name, Cell: w.Cell, Description: e.Description, Source: e.Source, Reason: e.Reason, Again: w.Again, Reference: w.Reference, Inputs: []*jsonWhy{}}
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
	if q := w.Requirement; q != nil {
		rec := note.NewRecord(&note.Result{Items: []note.Item{q}}).Requirements[0]
		j.Requirement, j.Text = &rec, verdict(q.Holds)
	}
	if w.Field != "" {
		j.Name += "." + w.Field
		v := valueOf(j.Name, *w.Part)
		j.Text, j.SI, j.Unit = v.Text, v.SI, v.Unit
	}
	j.Deeper = w.Cut
	for _, in := range w.Inside {
		f := jsonInside{Function: in.Function, Trouble: in.Trouble, Steps: []jsonStep{}}
		for _, s := range in.Steps {
			v := valueOf(s.Name, s.Value)
			f.Steps = append(f.Steps, jsonStep{s.Name, v.Text, v.SI, render.Formula(s.Formula, render.Plain), render.Numbers(s.Formula, render.Plain, 4)})
		}
		j.Inside = append(j.Inside, f)
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

// valueOf is the record of a value that stands alone.
func valueOf(name string, v exec.View) note.ValueRecord {
	return note.NewRecord(&note.Result{Items: []note.Item{&note.Entry{Name: name, Value: v, Form: note.FormComputed}}}).Values[name]
}
