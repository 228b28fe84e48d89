package render

import (
	"bytes"
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ohmwright/kernel/note"
	"ohmwright/lib/powertree"
	"ohmwright/units"
)

// sampleTree has n rails: the second carries nothing, the last is over its
// limit, one has a long name.
func sampleTree(t *testing.T, n int) powertree.Result {
	t.Helper()
	p := units.MustParse
	in := powertree.Inputs{Rails: []powertree.Rail{{Name: "input", Voltage: p("24 V"), LimitCurrent: p("3 A")}}, Modes: []powertree.Mode{{Name: "idle"}, {Name: "water", Time: p("1 h")}}}
	in.Loads = []powertree.Load{{Name: "pump", Rail: "input", Currents: []units.Quantity{p("0 A"), p("60 mA")}}}
	for i := 1; i < n; i++ {
		one := powertree.Rail{Name: fmt.Sprint("rail ", i), From: "input", Voltage: p("5 V"), Converter: powertree.Converter{Kind: "step-down", Efficiency: p("80 %")}}
		current := p("200 mA")
		switch {
		case i%4 == 3 || n == 3 && i == 2:
			one.From, one.Voltage = in.Rails[i-1].Name, p("5 V")
			if in.Rails[i-1].Converter.Kind == "step-down" {
				one.Voltage = p("3.3 V")
			}
			one.Converter = powertree.Converter{Kind: "linear"}
		case i%4 == 0:
			one.From, one.Voltage, one.Converter.Kind = in.Rails[i-2].Name, p("12 V"), "step-up"
		}
		if i == 1 && n > 3 {
			current = p("0 A")
		}
		if i == 4 {
			one.Name = "supply of the soil moisture amplifiers & probes"
		}
		if i == n-1 {
			one.LimitCurrent = p("150 mA")
		}
		in.Rails = append(in.Rails, one)
		in.Loads = append(in.Loads, powertree.Load{Name: fmt.Sprint("load ", i), Rail: one.Name, Currents: []units.Quantity{p("2 µA"), current}})
	}
	tree, err := powertree.Compute(in)
	if err != nil {
		t.Fatal(err)
	}
	return tree
}

func TestTreePicture(t *testing.T) {
	t.Parallel()
	for _, n := range []int{1, 3, 8, 20} {
		tree := sampleTree(t, n)
		svg, raster, err := TreePicture(tree)
		if err != nil {
			t.Fatal(err)
		}
		if dir := os.Getenv("OHMWRIGHT_PICTURES"); dir != "" { // to look at
			if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("tree%d.png", n)), raster, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if again, _, _ := TreePicture(tree); !bytes.Equal(svg, again) {
			t.Errorf("%d rails: two drawings differ", n)
		}
		if _, err := png.Decode(bytes.NewReader(raster)); err != nil {
			t.Error(err)
		}
		text := string(svg)
		if !strings.Contains(text, `role="img"`) || strings.Contains(text, "NaN") {
			t.Errorf("%d rails: no description, or no numbers", n)
		}
		if over := strings.Contains(text, "over by 50 mA"); over != (n > 1) {
			t.Errorf("%d rails: the rail over its limit is told: %v", n, over)
		}
	}
	// 200 mA on a limit of 150 mA; 3.3 V · 0.2 A, and 1.7 V · 0.2 A of heat.
	svg, _, err := TreePicture(sampleTree(t, 3))
	if err != nil {
		t.Fatal(err)
	}
	if want := "rail 2 at 3.3 V from rail 1: 200 mA, 660 mW, heat 340 mW, over by 50 mA"; !strings.Contains(string(svg), want) {
		t.Errorf("the picture does not say %q", want)
	}
}

// A tree in words has every rail, in its place, and every mode.
func TestTreeInWords(t *testing.T) {
	t.Parallel()
	tree := sampleTree(t, 3)
	item := &note.Plotted{Tree: &tree}
	got := Text([]note.Item{item}, Options{Width: 100})
	for _, want := range []string{"power tree of 3 rails, 1 over its limit", "· · rail 2", "over by 50 mA", "200 mA", "water", "340 mW", "no limit"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	if b := PictureBundle(item); b["image/png"] == "" || b["image/svg+xml"] == "" || !strings.Contains(b["text/plain"], "power tree") {
		t.Errorf("bundle: %v", len(b))
	}
	if html := Bundle(item)["text/html"]; !strings.Contains(html, "rail 2") {
		t.Error(html)
	}
	if os.Getenv("OHMWRIGHT_PICTURES") != "" {
		t.Log("\n" + got)
	}
}
