package report

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"ohmwright/kernel/folder"
	"ohmwright/kernel/note"
)

// imageOf is a picture, encoded by the standard library.
func imageOf(t testing.TB, encode func(io.Writer, image.Image) error) string {
	t.Helper()
	var b bytes.Buffer
	if err := encode(&b, image.NewGray(image.Rect(0, 0, 3, 2))); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

const housing = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 2 2"><rect width="1" height="1"/></svg>`

// ofText is the document of a note of one text cell.
func ofText(text string, attachments map[string]map[string]string, open func(string) ([]byte, error)) *Document {
	n := &Note{Path: "a.ipynb", Note: note.New(note.Options{}), Open: open, Cells: []Cell{{Markdown: "# Title\n\n" + text, Attachments: attachments}}}
	return NewDocument(&Design{Notes: []*Note{n}}, "", "0")
}

func TestPictures(t *testing.T) {
	t.Parallel()
	b64 := func(s string) string { return base64.StdEncoding.EncodeToString([]byte(s)) }
	pngs := imageOf(t, png.Encode)
	jpegs := imageOf(t, func(w io.Writer, m image.Image) error { return jpeg.Encode(w, m, nil) })
	gifs := imageOf(t, func(w io.Writer, m image.Image) error { return gif.Encode(w, m, nil) })
	webp := "RIFF\x1a\x00\x00\x00WEBPVP8L" // the head of such a file, RFC 9649 section 2.4
	attached := map[string]map[string]string{
		"a.png":     {"image/png": b64(pngs)},
		"lines.png": {"image/png": b64(pngs)[:20] + "\n" + b64(pngs)[20:] + "\n"},
		"a b.png":   {"image/png": b64(pngs)},
		"a.jpg":     {"image/jpeg": b64(jpegs)},
		"a.gif":     {"image/gif": b64(gifs)},
		"a.webp":    {"image/webp": b64(webp)},
		"text.svg":  {"image/svg+xml": housing},
		"b64.svg":   {"image/svg+xml": b64(`<?xml version="1.0"?><!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">` + housing)},
		"two":       {"text/html": b64("<script>alert(1)</script>"), "image/png": b64(pngs)},
		"wrong.png": {"text/html": b64(pngs)},
		"says.png":  {"image/png": b64("<script>alert(1)</script>")},
		"broken":    {"image/png": "%%%"},
		"empty.png": {},
		"half.svg":  {"image/svg+xml": "<svg><g></svg>"},
		"other.svg": {"image/svg+xml": "<html><svg/></html>"},
		"run.svg":   {"image/svg+xml": `<svg><script>alert(1)</script></svg>`},
		"run2.svg":  {"image/svg+xml": `<svg onload="alert(1)"/>`},
		"run3.svg":  {"image/svg+xml": "<svg><a href=\"java\nscript:alert(1)\"><text>x</text></a></svg>"},
		"run4.svg":  {"image/svg+xml": `<svg><foreignObject><b/></foreignObject></svg>`},
		"run5.svg":  {"image/svg+xml": `<!DOCTYPE svg [<!ENTITY x "<script/>">]><svg/>`},
		"run6.svg":  {"image/svg+xml": `<svg><set attributeName="href" to="javascript:alert(1)"/></svg>`},
	}
	here := t.TempDir()
	beside := filepath.Join(here, "note")
	for name, text := range map[string]string{
		"note/pictures/a.png": pngs, "note/my (old) picture.jpg": jpegs, "note/plain.svg": housing, "note/text.png": "no picture",
		"note/large.png": pngs + strings.Repeat("\x00", folder.Most), "secret.png": pngs,
	} {
		path := filepath.Join(here, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	linked := os.Symlink(filepath.Join("..", "secret.png"), filepath.Join(beside, "link.png")) == nil
	for _, c := range []struct {
		text string
		kind string // of the picture that is shown
		data string
		why  string // else what the document says
	}{
		{"![x](attachment:a.png)", "png", pngs, ""},
		{"![x](attachment:lines.png)", "png", pngs, ""},
		{"![x](<attachment:a b.png>)", "png", pngs, ""},
		{"![x](attachment:a%20b.png)", "png", pngs, ""},
		{"![x](attachment:a.png \"with a title\")", "png", pngs, ""},
		{"![x][ref]\n\n[ref]: attachment:a.png", "png", pngs, ""},
		{"> quoted ![x\n> ](attachment:a.png)", "png", pngs, ""},
		{"## A heading ![x](attachment:a.png)", "png", pngs, ""},
		{"| a |\n|---|\n| ![x](attachment:a.png) |", "png", pngs, ""},
		{"[![x](attachment:a.png)](https://example.org)", "png", pngs, ""},
		{"![x](attachment:a.jpg)", "jpeg", jpegs, ""},
		{"![x](attachment:a.gif)", "gif", gifs, ""},
		{"![x](attachment:a.webp)", "webp", webp, ""},
		{"![x](attachment:text.svg)", "svg+xml", housing, ""},
		{"![x](attachment:b64.svg)", "svg+xml", `<?xml version="1.0"?><!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">` + housing, ""},
		{"![x](attachment:two)", "png", pngs, ""},
		{"![x](data:image/png;base64," + b64(pngs) + ")", "png", pngs, ""},
		{"![x](pictures/a.png)", "png", pngs, ""},
		{"![x](./pictures/a.png)", "png", pngs, ""},
		{"![x](<my (old) picture.jpg>)", "jpeg", jpegs, ""},
		{"![x](my%20\\(old\\)%20picture.jpg)", "jpeg", jpegs, ""},
		{"![x](plain.svg)", "svg+xml", housing, ""},

		{"![x](attachment:none.png)", "", "", "x; the cell has no attachment none.png"},
		{"![x](attachment:empty.png)", "", "", "x; the cell has no attachment empty.png"},
		{"![x](attachment:wrong.png)", "", "", "x; the attachment wrong.png is no picture but text/html"},
		{"![x](attachment:says.png)", "", "", "x; the attachment says.png is no picture of the kinds PNG, JPEG, GIF, WebP and SVG"},
		{"![x](attachment:broken)", "", "", "x; the attachment broken is not spelt in base64"},
		{"![x](attachment:half.svg)", "", "", "x; the attachment half.svg is no picture of the kinds PNG, JPEG, GIF, WebP and SVG"},
		{"![x](attachment:other.svg)", "", "", "x; the attachment other.svg is no picture of the kinds PNG, JPEG, GIF, WebP and SVG"},
		{"![x](attachment:run.svg)", "", "", "x; the attachment run.svg holds what a browser could run"},
		{"![x](attachment:run2.svg)", "", "", "x; the attachment run2.svg holds what a browser could run"},
		{"![x](attachment:run3.svg)", "", "", "x; the attachment run3.svg holds what a browser could run"},
		{"![x](attachment:run4.svg)", "", "", "x; the attachment run4.svg holds what a browser could run"},
		{"![x](attachment:run5.svg)", "", "", "x; the attachment run5.svg holds what a browser could run"},
		{"![x](attachment:run6.svg)", "", "", "x; the attachment run6.svg holds what a browser could run"},
		{"![x](data:text/html;base64," + b64("<b>") + ")", "", "", "x; the address itself is no picture but text/html"},
		{"![](https://example.org/a.png?b=c&d)", "", "", "it stands at https://example.org/a.png?b=c&d"},
		{"![a *b* `c`](//example.org/a.png)", "", "", "a b c; it stands at //example.org/a.png"},
		{"![x](javascript:alert(1))", "", "", "x; it stands at javascript:alert(1)"},
		{"![x](../secret.png)", "", "", "x; ../secret.png is no file in the note's folder or below it"},
		{"![x](%2e%2e/secret.png)", "", "", "x; %2e%2e/secret.png is no file in the note's folder or below it"},
		{"![x](" + filepath.ToSlash(filepath.Join(here, "secret.png")) + ")", "", "", "x; " + filepath.ToSlash(filepath.Join(here, "secret.png")) + " is no file in the note's folder or below it"},
		{"![x](pictures)", "", "", "x; pictures is no file in the note's folder or below it"},
		{"![x]()", "", "", "x; it has no address"},
		{"![x](none.png)", "", "", "x; none.png is no file in the note's folder or below it"},
		{"![x](text.png)", "", "", "x; text.png is no picture of the kinds PNG, JPEG, GIF, WebP and SVG"},
		{"![x](large.png)", "", "", "x; large.png is larger than 4 MB"},
		{"![x](link.png)", "", "", "x; link.png is no file in the note's folder or below it"},
	} {
		if strings.Contains(c.text, "link.png") && !linked {
			continue // a system without symbolic links
		}
		d := ofText(c.text, attached, folder.Of(beside).Open)
		html, err := d.HTML()
		if err != nil {
			t.Fatal(err)
		}
		page, err := readPage(html)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		md, files := d.Markdown("files")
		images := page.all("img")
		shown := regexp.MustCompile(`!\[x\]\(<files/(note-1-1-picture-1\.[a-z]+)>\)`).FindStringSubmatch(md)
		if c.why != "" {
			if text := strings.Join(strings.Fields(page.words()), " "); len(images) != 0 || !strings.Contains(text, "(picture, not in this document: ") || !strings.Contains(text, c.why+")") {
				t.Errorf("%s: the page has %d pictures and says\n%s", c.text, len(images), text)
			}
			if plain := strings.ReplaceAll(md, `\`, ""); len(files) != 0 || !strings.Contains(plain, c.why+")") || strings.Contains(md, "![") {
				t.Errorf("%s: Markdown has %d pictures and says\n%s", c.text, len(files), md)
			}
			continue
		}
		if len(images) != 1 || images[0].attrs["src"] != "data:image/"+c.kind+";base64,"+b64(c.data) || images[0].attrs["alt"] != "x" {
			t.Errorf("%s: the page has %d pictures, want one: %s", c.text, len(images), page.words())
		}
		if shown == nil || len(files) != 1 || string(files[shown[1]]) != c.data {
			t.Errorf("%s: Markdown has %d pictures, want one:\n%s", c.text, len(files), md)
		}
	}
}

// Pictures from files beside the note are part of what a document was made
// from; several in a cell do not take each other's place.
func TestPicturesBeside(t *testing.T) {
	t.Parallel()
	a, b := imageOf(t, png.Encode), imageOf(t, func(w io.Writer, m image.Image) error { return png.Encode(w, image.NewGray(image.Rect(0, 0, 1, 1))) })
	read := map[string]int{}
	d := ofText("![1](a.png) ![2](b.png) ![3](a.png) ![4](c.png)", nil, func(name string) ([]byte, error) {
		read[name]++
		switch name {
		case "a.png":
			return []byte(a), nil
		case "b.png":
			return []byte(b), nil
		}
		return nil, os.ErrNotExist
	})
	md, files := d.Markdown("files")
	if _, err := d.HTML(); err != nil {
		t.Fatal(err)
	}
	if want := "![1](<files/note-1-1-picture-1.png>) ![2](<files/note-1-1-picture-2.png>) ![3](<files/note-1-1-picture-1.png>) (picture"; !strings.Contains(md, want) {
		t.Errorf("want %s in\n%s", want, md)
	}
	if len(files) != 2 || string(files["note-1-1-picture-1.png"]) != a || string(files["note-1-1-picture-2.png"]) != b {
		t.Errorf("beside the document are %d files", len(files))
	}
	if len(d.Files) != 2 || d.Files[0].Name != "a.png" || d.Files[1].Name != "b.png" {
		t.Errorf("made from %v", d.Files)
	}
	if read["a.png"] != 1 || read["c.png"] != 1 {
		t.Errorf("files were read %v times", read)
	}
}
