package report

import (
	"slices"
	"testing"

	"ohmwright/kernel/note"
)

// The verdict of a document, in which nothing that fails stands beside a
// sentence that all is well.
func TestVerdict(t *testing.T) {
	t.Parallel()
	need := func(text, id string, holds, nominal bool, waived string) note.Item {
		return &note.Requirement{Text: text, ID: id, Holds: holds, Nominal: nominal, Waived: waived}
	}
	good := need("cool", "", true, true, "")
	surge := &note.Operating{Name: "surge"}
	for _, c := range []struct {
		name  string
		items []note.Item
		want  string
	}{
		{"nothing is stated", nil, "No requirement is stated."},
		{"all holds", []note.Item{good, good}, "As designed, 2 requirements hold over all limits; none fails."},
		{"a case fails", []note.Item{good, &note.Operating{Name: "cold start"}}, "As designed, 1 requirement holds over all limits. But 1 operating case fails: cold start."},
		{"a case holds", []note.Item{good, &note.Operating{Name: "cold start", Holds: true}}, "As designed, 1 requirement holds over all limits; none fails."},
		{"many cases fail", []note.Item{good, surge, surge, surge, surge}, "As designed, 1 requirement holds over all limits. But 4 operating cases fail."},
		{"all is waived", []note.Item{need("P-1: low", "P-1", false, false, "bench")}, "1 requirement is missed and waived: P-1."},
		{"a case of no requirement", []note.Item{&note.Operating{Name: "surge", Trouble: "no root"}}, "No requirement is stated. 1 operating case fails: surge."},
		{"one fails, one is waived", []note.Item{good, need("low", "", false, true, ""), need("P-1: low", "P-1", false, false, "bench"), surge},
			"1 requirement fails: “low”. As designed, 1 holds over all limits. With nominal values 2 of 3 hold. 1 requirement is missed and waived: P-1. 1 operating case fails: surge."},
		{"all fail", []note.Item{need("low", "", false, false, "")}, "1 requirement fails: “low”. With nominal values 0 of 1 hold."},
		{"a reference stands twice", []note.Item{good, &note.Part{Reference: "R1", Twice: "cell 1"}}, "As designed, 1 requirement holds over all limits. But 1 reference, identifier or case stands twice: R1."},
		{"a reading", []note.Item{good, &note.Measurement{Name: "Vout", Verdict: note.FitOutside}}, "As designed, 1 requirement holds over all limits. But 1 reading lies outside of what was computed: Vout."},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := NewDocument(&Design{Notes: []*Note{{Path: "a.ipynb", Note: note.New(note.Options{}), Results: []*note.Result{{Items: c.items}}}}}, "", "0")
			if got := d.Verdict(); got != c.want {
				t.Errorf("%q, want %q", got, c.want)
			}
		})
	}
}

// What fails without the case is named.
func TestCaseFailsAnyway(t *testing.T) {
	t.Parallel()
	m := missed(Place{}, &note.Operating{Name: "start", Anyway: []string{"the supply is enough"}})
	if want := "“the supply is enough” fails as designed, and the case does not touch it"; m.How != want {
		t.Errorf("%q, want %q", m.How, want)
	}
}

// Two notes with cases of one name share its column; what a note does not state
// is none of its cases.
func TestCaseTable(t *testing.T) {
	t.Parallel()
	of := func(path string, items ...note.Item) *Note {
		return &Note{Path: path, Note: note.New(note.Options{}), Results: []*note.Result{{Items: items}}}
	}
	margin := quantity(t, "2V")
	d := NewDocument(&Design{Notes: []*Note{
		of("a.ipynb", &note.Requirement{Text: "low", Holds: true, Margin: &margin}, &note.Operating{Name: "cold", Holds: true}),
		of("b.ipynb", &note.Requirement{Text: "high", Margin: &margin}, &note.Operating{Name: "surge", Trouble: "no root"}, &note.Operating{Name: "cold", Holds: true}),
	}}, "", "0")
	if !slices.Equal(d.CaseNames, []string{"cold", "surge"}) {
		t.Fatalf("cases %q", d.CaseNames)
	}
	want := [][]CaseCell{{{"2 V", false}, {"as designed", false}, {"–", false}}, {{"fails, 2 V", true}, {"as designed", true}, {"not computed", true}}}
	for i, row := range d.CaseRows {
		if !slices.Equal(row.In, want[i]) {
			t.Errorf("%s: %v, want %v", row.Text, row.In, want[i])
		}
	}
	if none := NewDocument(&Design{Notes: []*Note{of("a.ipynb", &note.Requirement{Text: "low"})}}, "", "0"); none.CaseRows != nil {
		t.Errorf("without cases %v", none.CaseRows)
	}
}

// Ratings come with their part; owners are asked for where some are named.
func TestUnsourced(t *testing.T) {
	t.Parallel()
	need := func(text, source, about string) note.Item {
		return &note.Requirement{Text: text, Source: source, Description: about}
	}
	rating := &note.Requirement{Text: "R1 power", Rating: &note.Rated{}}
	for _, c := range []struct {
		name  string
		items []note.Item
		want  []string
	}{
		{"no requirement", nil, nil},
		{"ratings only", []note.Item{rating}, nil},
		{"none has a source", []note.Item{need("a", "", ""), need("b", "", ""), rating}, []string{"None of the requirements (2) names a source."}},
		{"some have", []note.Item{need("a", "spec", ""), need("b", "", "")}, []string{"Requirements without a source: b"}},
		{"owners", []note.Item{need("a", "spec", "Owner: N.N."), need("b", "spec", "")}, []string{"Requirements without an owner: b"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := NewDocument(&Design{Notes: []*Note{{Path: "a.ipynb", Note: note.New(note.Options{}), Results: []*note.Result{{Items: c.items}}}}}, "", "0")
			var got []string
			for _, u := range d.Unsourced() {
				text := u.What
				for _, q := range u.Requirements {
					text += " " + q.Words()
				}
				got = append(got, text)
			}
			if !slices.Equal(got, c.want) {
				t.Errorf("%q, want %q", got, c.want)
			}
		})
	}
}
