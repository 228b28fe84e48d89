package report

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"maps"
	"net/url"
	"path"
	"slices"
	"strings"

	"github.com/yuin/goldmark/util"

	"ohmwright/kernel/folder"
)

// picture is what a text cell names where a picture is to stand.
type picture struct {
	kind string // "image/png"
	data []byte
	file string // below the note's folder, "" for one that the note holds itself
	why  string // it is not in the document; "" if it is
}

// uri is the picture as an address that loads nothing.
func (p picture) uri() string {
	return "data:" + p.kind + ";base64," + base64.StdEncoding.EncodeToString(p.data)
}

// ending is that of a file with the picture.
func (p picture) ending() string {
	return strings.TrimSuffix(strings.TrimPrefix(p.kind, "image/"), "+xml")
}

// missing says what stands in the place of a picture.
func (p picture) missing(alt string) string {
	return "(picture, not in this document: " + strings.TrimPrefix(alt+"; ", "; ") + p.why + ")"
}

// picture finds what an image of a text cell shows: an attachment of the cell,
// data in the address itself, or a file beside the note. Nothing is loaded
// from elsewhere, for a document must say the same on a desk without a network.
func (c *Chapter) picture(cell Cell, destination string) picture {
	address := plainAddress(destination)
	if name, ok := strings.CutPrefix(address, "attachment:"); ok {
		return attachment(cell.Attachments, name)
	}
	if data, ok := strings.CutPrefix(address, "data:"); ok {
		kind, text, _ := strings.Cut(data, ",")
		return decoded(strings.TrimSuffix(kind, ";base64"), text, "the address itself")
	}
	if address == "" {
		return picture{why: "it has no address"}
	}
	u, err := url.Parse(address)
	if err != nil || u.Scheme != "" || u.Host != "" {
		return picture{why: "it stands at " + short(address)}
	}
	name := path.Clean(u.Path)
	if p, known := c.beside[name]; known {
		return p
	}
	p := picture{why: short(address) + " is no file in the note's folder or below it"}
	if c.Open != nil {
		if data, err := c.Open(name); err == nil {
			p = checked(data, short(address))
			p.file = name
		}
	}
	c.beside[name] = p
	return p
}

// plainAddress is the destination of a link without Markdown's escapes.
func plainAddress(destination string) string {
	b := util.UnescapePunctuations([]byte(destination))
	return string(util.ResolveEntityNames(util.ResolveNumericReferences(b)))
}

// short is an address that can stand in a line.
func short(address string) string {
	if r := []rune(address); len(r) > 100 {
		return string(r[:100]) + "…"
	}
	return address
}

func attachment(attachments map[string]map[string]string, name string) picture {
	types := attachments[name]
	if plain, err := url.PathUnescape(name); err == nil && types == nil {
		types, name = attachments[plain], plain
	}
	what := "the attachment " + short(name)
	if len(types) == 0 {
		return picture{why: "the cell has no attachment " + short(name)}
	}
	var p picture
	for _, kind := range slices.Sorted(maps.Keys(types)) {
		if p = decoded(kind, types[kind], what); p.why == "" {
			break
		}
	}
	return p
}

// decoded reads a picture that is given as text in base64; SVG may stand there
// as it is.
func decoded(kind, text, what string) picture {
	if !strings.HasPrefix(kind, "image/") {
		return picture{why: what + " is no picture but " + short(kind)}
	}
	data, err := base64.StdEncoding.DecodeString(strings.Join(strings.Fields(text), ""))
	if err != nil && kind == "image/svg+xml" {
		data, err = []byte(text), nil
	}
	if err != nil {
		return picture{why: what + " is not spelt in base64"}
	}
	return checked(data, what)
}

// checked takes a picture for what its first bytes say, whatever its name or
// type claims.
func checked(data []byte, what string) picture {
	if len(data) >= folder.Most {
		return picture{why: what + " is larger than 4 MB"}
	}
	for _, k := range []struct{ kind, start, at8 string }{
		{"image/png", "\x89PNG\r\n\x1a\n", ""}, {"image/jpeg", "\xff\xd8\xff", ""}, {"image/gif", "GIF8", ""}, {"image/webp", "RIFF", "WEBP"},
	} {
		if bytes.HasPrefix(data, []byte(k.start)) && bytes.HasPrefix(data[min(8, len(data)):], []byte(k.at8)) {
			return picture{kind: k.kind, data: data}
		}
	}
	switch err := still(data); {
	case errors.Is(err, errRuns):
		return picture{why: what + " holds what a browser could run"}
	case err != nil:
		return picture{why: what + " is no picture of the kinds PNG, JPEG, GIF, WebP and SVG"}
	}
	return picture{kind: "image/svg+xml", data: data}
}

var (
	errRuns  = errors.New("it holds a script")
	errNoSVG = errors.New("its first element is not svg")
)

// still reports whether data are an SVG in which nothing can run. A browser
// runs nothing in a picture, but the files beside a document in Markdown may
// be opened by themselves.
func still(data []byte) error {
	d := xml.NewDecoder(bytes.NewReader(data))
	first := true
	for {
		token, err := d.Token()
		if err == io.EOF && !first {
			return nil
		} else if err != nil {
			return err
		}
		if x, ok := token.(xml.Directive); ok && bytes.Contains(x, []byte("ENTITY")) {
			return errRuns // text that a reader of its own spells out
		}
		x, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		if first && x.Name.Local != "svg" {
			return errNoSVG
		}
		first = false
		if slices.Contains([]string{"script", "foreignobject", "iframe", "object", "embed", "handler"}, strings.ToLower(x.Name.Local)) {
			return errRuns
		}
		for _, a := range x.Attr {
			value := strings.ToLower(strings.Join(strings.Fields(a.Value), ""))
			if strings.HasPrefix(strings.ToLower(a.Name.Local), "on") || strings.Contains(value, "javascript:") || strings.Contains(value, "data:text") {
				return errRuns
			}
		}
	}
}

func hashOf(data []byte) string { return fmt.Sprintf("%x", sha256.Sum256(data)) }
