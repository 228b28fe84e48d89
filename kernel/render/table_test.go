package render

import (
	"strings"
	"testing"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/note"
)

// A table shows how many rows it has, what it reads over which inputs, and the
// file with its hash beside the source; names of columns are text in every
// flavour.
func TestTableEntry(t *testing.T) {
	t.Parallel()
	e := &note.Entry{
		Name: "hold", Form: note.FormInput, Description: "fuse", Source: "data sheet",
		Files: []note.File{{Name: "hold.csv", Hash: "bf2a1f7ab6cc"}},
		Value: cell.View{Kind: exec.KindText, Type: "table.Table", Text: "3 rows: I_hold <b> $x$ 1 A … 2 A over Ta −40 °C … 85 °C"},
	}
	items := []note.Item{e}
	text := strings.Join(strings.Fields(Text(items, Options{})), " ")
	if want := "hold 3 rows fuse data sheet; hold.csv, sha256 bf2a1f7ab6cc reads I_hold <b> $x$ 1 A … 2 A over Ta −40 °C … 85 °C"; text != want {
		t.Errorf("text:\ngot  %s\nwant %s", text, want)
	}
	if html := HTML(items, TeX); !strings.Contains(html, "<b>3\u00a0rows</b>") || !strings.Contains(html, "I_hold &lt;b&gt;") || !strings.Contains(html, "sha256 bf2a1f7ab6cc") {
		t.Errorf("HTML: %s", html)
	}
	if tex := LaTeX(items); !strings.Contains(tex, `\text{I}\_\text{hold <b> }\$\text{x}\$`) {
		t.Errorf("LaTeX: %s", tex)
	}
	if out := WhyText(&note.Why{Entry: e, Cell: "cell 1"}, 0); !strings.Contains(out, "(data sheet; hold.csv, sha256 bf2a1f7ab6cc; cell 1)") {
		t.Errorf("derivation: %s", out)
	}
}
