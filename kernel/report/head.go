package report

import (
	"path"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// overview is what the note is called that tells of a design as a whole.
var overview = regexp.MustCompile(`(?i)^(readme|00[-_ ].*)\.ipynb$`)

// titleOf is the heading of the only note, or of the note that opens the design;
// else the name of its folder.
func (d *Document) titleOf(design *Design) string {
	if len(d.Notes) == 0 {
		return ""
	}
	title := d.Notes[0].Title
	if len(d.Notes) == 1 {
		return title
	}
	if i := slices.IndexFunc(d.Notes, func(c *Chapter) bool { return overview.MatchString(c.Path) && c.headed }); i >= 0 {
		return d.Notes[i].Title
	}
	if name := readable(path.Base(design.Folder)); design.Folder != "" && name != "" {
		return name
	}
	return title
}

// readable makes words of the name of a folder.
func readable(name string) string {
	name = strings.Join(strings.FieldsFunc(name, func(r rune) bool { return r == '-' || r == '_' || unicode.IsSpace(r) }), " ")
	first, size := utf8.DecodeRuneInString(name)
	if !unicode.IsLetter(first) {
		return strings.Trim(name, "./\\")
	}
	return string(unicode.ToUpper(first)) + name[size:]
}

// Kind says below the title what the document is.
func (d *Document) Kind() string {
	return "Design rationale, " + counted(len(d.Notes), "note", "notes") + d.issue()
}

// issue is the revision and the author, as they are told.
func (d *Document) issue() string {
	return behind(", revision ", d.Revision) + behind(", ", d.Author)
}

// Running is what stands at the foot of each sheet.
func (d *Document) Running() string { return d.Title + d.issue() }
