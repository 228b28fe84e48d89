package report

import (
	"fmt"
	"html"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

// element is a piece of a page that was read by readPage; text has no name.
type element struct {
	name   string
	attrs  map[string]string
	text   string
	inside []*element
	parent *element
}

// all lists the elements of a name below e, in their order.
func (e *element) all(name string) (list []*element) {
	for _, x := range e.inside {
		if x.name == name {
			list = append(list, x)
		}
		list = append(list, x.all(name)...)
	}
	return list
}

// words is all text below e, with spaces for those that keep a line together.
func (e *element) words() string {
	var b strings.Builder
	b.WriteString(strings.ReplaceAll(e.text, "\u00a0", " "))
	for _, x := range e.inside {
		if x.name == "br" || x.name == "td" || x.name == "th" || x.name == "p" || x.name == "li" {
			b.WriteByte(' ')
		}
		b.WriteString(x.words())
	}
	return b.String()
}

func (e *element) is(class string) bool {
	return slices.Contains(strings.Fields(e.attrs["class"]), class)
}

// What a document is made of. Whatever is not in these lists could run, load or
// change how the rest is read.
var (
	pageElements = strings.Fields(`html head meta title style body header main nav footer section div h1 h2 h3 h4 h5 h6 p blockquote
		pre figure hr ul ol li table caption thead tbody tr th td a b i em strong del code span sub sup br wbr img details summary`)
	mathElements = strings.Fields(`math mrow mi mn mo mtext mspace mfrac msqrt mroot msub msup msubsup munder mover munderover
		mtable mtr mtd mstyle mpadded mphantom`)
	svgElements = strings.Fields(`svg g path text title desc rect line circle ellipse polyline polygon tspan`)
	pageAttrs   = strings.Fields(`lang charset name content id class href src alt style tabindex role aria-label aria-labelledby scope colspan start open
		xmlns xmlns:xlink display displaystyle mathvariant form separator stretchy fence lspace rspace width height accent linethickness minsize maxsize
		linebreak columnalign columnspacing rowspacing viewBox x y d transform`)
	inText   = strings.Fields(`a b i em strong del code span sub sup br wbr img math svg`)
	pageHTML = regexp.MustCompile(`^<(/?)([a-zA-Z][a-zA-Z0-9]*)((?:\s+[a-zA-Z:-]+="[^"<]*")*)\s*(/?)>`)
	pageAttr = regexp.MustCompile(`([a-zA-Z:-]+)="([^"]*)"`)
	pageAmp  = regexp.MustCompile(`&(?:#[0-9]+;|#x[0-9a-fA-F]+;|[a-zA-Z][a-zA-Z0-9]*;)?`)
	styles   = regexp.MustCompile(`^(text-align:(left|right|center)|background:none|margin-left:2em|[a-z-]+:[^:()\\]*(; ?[a-z-]+:[^:()\\]*)*)$`)
)

// readPage reads a page as strictly as it can be read, so that no two readers
// could disagree on what is markup in it: every tag is closed, every attribute
// quoted, nothing stands where a browser would move it from, and only what the
// lists name is there. It loads nothing and nothing can run.
func readPage(page string) (*element, error) {
	const start = "<!DOCTYPE html>\n"
	if !strings.HasPrefix(page, start) || !utf8.ValidString(page) {
		return nil, fmt.Errorf("no page of HTML: %.40q", page)
	}
	root := &element{}
	at := root
	rest := page[len(start):]
	fail := func(format string, args ...any) (*element, error) {
		return nil, fmt.Errorf(format+" at %.200q in %s", append(args, rest, at.name)...)
	}
	for rest != "" {
		i := strings.IndexByte(rest, '<')
		if at.name == "style" && len(at.inside) == 0 {
			if i = strings.Index(rest, "</style>"); i < 0 || !ourStyle(rest[:i]) {
				return fail("another style")
			}
		}
		if i < 0 {
			i = len(rest)
		}
		if i > 0 {
			if err := at.take(rest[:i]); err != nil {
				return fail("%v", err)
			}
			rest = rest[i:]
			continue
		}
		m := pageHTML.FindStringSubmatch(rest)
		if m == nil {
			return fail("no tag")
		}
		if m[1] == "/" {
			if at.name != m[2] || m[3] != "" || m[4] != "" {
				return fail("</%s>", m[2])
			}
			at, rest = at.parent, rest[len(m[0]):]
			continue
		}
		x := &element{name: m[2], attrs: map[string]string{}, parent: at}
		for _, a := range pageAttr.FindAllStringSubmatch(m[3], -1) {
			if _, twice := x.attrs[a[1]]; twice {
				return fail("%s stands twice", a[1])
			}
			x.attrs[a[1]] = html.UnescapeString(a[2])
		}
		if err := x.allowed(m[4] == "/"); err != nil {
			return fail("%v", err)
		}
		at.inside = append(at.inside, x)
		if !slices.Contains(strings.Fields("meta br wbr img hr"), x.name) && m[4] == "" {
			at = x
		}
		rest = rest[len(m[0]):]
	}
	if at != root || len(root.inside) == 0 {
		return fail("the end")
	}
	return root, nil
}

// take adds text.
func (e *element) take(text string) error {
	for _, m := range pageAmp.FindAllString(text, -1) {
		if plain := html.UnescapeString(m); len(m) == 1 || strings.HasSuffix(plain, ";") {
			return fmt.Errorf("an & that opens nothing")
		}
	}
	if i := strings.IndexFunc(text, func(r rune) bool { return r < ' ' && r != '\n' && r != '\t' && r != '\r' || r == 0x7f }); i >= 0 {
		return fmt.Errorf("a character %q", text[i])
	}
	if strings.TrimSpace(text) != "" && slices.Contains(strings.Fields("table thead tbody tr ul ol html head  svg g mrow mfrac"), e.name) {
		return fmt.Errorf("text %q", text)
	}
	e.inside = append(e.inside, &element{text: html.UnescapeString(text), parent: e})
	return nil
}

// within finds the nearest of some elements around e.
func (e *element) within(names ...string) *element {
	for p := e.parent; p != nil; p = p.parent {
		if slices.Contains(names, p.name) {
			return p
		}
	}
	return nil
}

func (e *element) allowed(closed bool) error {
	known, foreign := pageElements, false
	switch {
	case e.name == "math" || e.within("math") != nil:
		known, foreign = mathElements, true
	case e.name == "svg" || e.within("svg") != nil:
		known, foreign = svgElements, true
	}
	if !slices.Contains(known, e.name) || closed && !foreign {
		return fmt.Errorf("element <%s>", e.name)
	}
	in := map[string]string{"tr": "table thead tbody", "td": "tr", "th": "tr", "caption": "table", "thead": "table", "tbody": "table", "li": "ul ol", "summary": "details"}[e.name]
	switch {
	case in != "" && !slices.Contains(strings.Fields(in), e.parent.name):
		return fmt.Errorf("<%s> in <%s>", e.name, e.parent.name)
	case in == "" && slices.Contains(strings.Fields("table thead tbody tr ul ol"), e.parent.name):
		return fmt.Errorf("<%s> in <%s>", e.name, e.parent.name)
	case !foreign && e.within("p", "h1", "h2", "h3", "h4", "h5", "h6", "a", "code", "summary", "pre") != nil && !slices.Contains(inText, e.name):
		return fmt.Errorf("<%s> in text", e.name)
	case e.name == "a" && e.within("a") != nil:
		return fmt.Errorf("a link in a link")
	}
	for name, value := range e.attrs {
		switch {
		case !slices.Contains(pageAttrs, name):
			return fmt.Errorf("attribute %s", name)
		case name == "src" && !regexp.MustCompile(`^data:image/(png|jpeg|gif|webp|svg\+xml);base64,[A-Za-z0-9+/]*=*$`).MatchString(value):
			return fmt.Errorf("source %q", value)
		case name == "href" && (e.name != "a" || !regexp.MustCompile(`^(#|https?:|mailto:|[^:]*$|[^:/?#]*[/?#])`).MatchString(strings.ToLower(value))):
			return fmt.Errorf("link to %q", value)
		case name == "style" && !styles.MatchString(value):
			return fmt.Errorf("style %q", value)
		case (name == "src") != (e.name == "img") && name == "src":
			return fmt.Errorf("source of <%s>", e.name)
		}
	}
	return nil
}

// checkLinks fails where an id of a page stands twice or a link of
// the page leads nowhere.
func checkLinks(page *element) error {
	ids := map[string]bool{}
	var walk func(e *element) error
	walk = func(e *element) error {
		if id, ok := e.attrs["id"]; ok {
			if id == "" || ids[id] || strings.ContainsAny(id, " \t\n") {
				return fmt.Errorf("id %q stands twice, or is none", id)
			}
			ids[id] = true
		}
		for _, x := range e.inside {
			if err := walk(x); err != nil {
				return err
			}
		}
		return nil
	}
	if err := walk(page); err != nil {
		return err
	}
	for _, a := range page.all("a") {
		if to, ok := strings.CutPrefix(a.attrs["href"], "#"); ok && !ids[to] {
			return fmt.Errorf("link %q leads nowhere: %q", a.words(), a.attrs["href"])
		}
	}
	return nil
}

// The reader of pages refuses what it is there to find.
func TestReadPageRefuses(t *testing.T) {
	t.Parallel()
	page := func(body string) string {
		return "<!DOCTYPE html>\n<html lang=\"en\"><head><title>t</title><style>\n" + documentStyle + "@page { @bottom-left { content: \"t\"; } }\n</style></head><body>" + body + "</body></html>\n"
	}
	if _, err := readPage(page(`<p>a &lt; b &#43; <a href="#x">c</a> <math><mi>x</mi></math></p><img src="data:image/png;base64,AA==" alt="">`)); err != nil {
		t.Fatal(err)
	}
	for _, body := range []string{
		"<script>alert(1)</script>", "<SCRIPT>", `<p onclick="x">a</p>`, `<p class=x>a</p>`, `<p class='x'>a</p>`, "<p>", "</p>", "<p><b></p></b>", "<b/>", "<!-- x -->", "<![CDATA[x]]>", "<?x?>", "a < b", "a & b", "&x", "&nothing;",
		"<p><div>a</div></p>", "<p><table></table></p>", "<table>a</table>", "<table><p>a</p></table>", "<tr><td>a</td></tr>", "<ul><p>a</p></ul>", "<li>a</li>", `<a href="#x"><a href="#y">b</a></a>`,
		`<a href="javascript:alert(1)">a</a>`, `<a href="JAVASCRIPT:alert(1)">a</a>`, `<a href="data:text/html,x">a</a>`, `<a href="vbscript:x">a</a>`, `<a href="file:///etc">a</a>`,
		`<img src="http://example.org/a.png" alt="">`, `<img src="a.png" alt="">`, `<img src="data:text/html;base64,AA==" alt="">`, `<img src="data:image/png;base64,AA==" src="data:image/png;base64,AA==" alt="">`,
		"<iframe></iframe>", "<link>", "<form></form>", "<style>p{}</style>", `<p style="background:url(x)">a</p>`, "<math><p>a</p></math>", "<math><annotation-xml></annotation-xml></math>", "<svg><script></script></svg>", "<svg><a></a></svg>", "<svg><foreignObject></foreignObject></svg>",
		"\x00", "\x1b[31m", "\xff",
	} {
		if _, err := readPage(page(body)); err == nil {
			t.Errorf("%q is let pass", body)
		}
	}
	for _, body := range []string{`<p id="a">a</p><p id="a">b</p>`, `<a href="#a">a</a>`, `<p id="">a</p>`} {
		if p, err := readPage(page(body)); err != nil || checkLinks(p) == nil {
			t.Errorf("%q is let pass: %v", body, err)
		}
	}
}

// ourStyle: the style of documents, and the title at the foot of each sheet, in
// which everything that could end its text is escaped (CSS Syntax 3, 4.3.5).
func ourStyle(style string) bool {
	foot, ours := strings.CutPrefix(style, "\n"+documentStyle)
	return ours && atFoot.MatchString(foot)
}

var atFoot = regexp.MustCompile(`^@page \{ @bottom-left \{ content: "(?:[^"\\<>\n\r\f]|\\[0-9a-f]{1,6} ?|\\[^\n0-9a-f])*"; \} \}\n$`)
