// Package pdf prints a page of HTML with the Chromium that is installed.
//
//	data, err := pdf.Print(ctx, page, pdf.A4)
//
// The page runs no script and loads nothing, and its style may turn single pages
// on their side. The context's time limit holds for all of it: a Chromium that
// hangs is killed, with the programs that it started. [ErrNone] says that there
// is no Chromium. What is given back is a whole PDF.
package pdf

import (
	"bytes"
	"context"
	"errors"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// ErrNone says that there is no Chromium.
var ErrNone = errors.New("no Chromium was found")

// ErrTime says that Chromium took longer than it was given.
var ErrTime = errors.New("Chromium did not finish in time and was ended")

// Paper is a size of paper, upright, in inches as Chromium has them.
type Paper struct{ Width, Height float64 }

var (
	A4     = Paper{210 / 25.4, 297 / 25.4} // ISO 216
	Letter = Paper{8.5, 11}                // ANSI/ASME Y14.1, size A
)

// names are those under which Chromium and browsers made of it are installed.
var names = []string{"chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "chrome", "microsoft-edge"}

// Find gives the program that prints.
func Find() (string, error) {
	for _, n := range names {
		if path, err := exec.LookPath(n); err == nil {
			return path, nil
		}
	}
	for _, path := range []string{"/Applications/Google Chrome.app/Contents/MacOS/Google Chrome", "/Applications/Chromium.app/Contents/MacOS/Chromium"} {
		if _, err := os.Stat(path); err == nil {
			return path, nil
		}
	}
	return "", ErrNone
}

// Print gives the page as PDF.
func Print(ctx context.Context, html string, on Paper) ([]byte, error) {
	program, err := Find()
	if err != nil {
		return nil, err
	}
	dir, err := os.MkdirTemp("", "ohmwright-print-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	file := filepath.Join(dir, "page.html")
	if err := os.WriteFile(file, []byte(html), 0o600); err != nil {
		return nil, err
	}
	wait := time.Hour
	if end, ok := ctx.Deadline(); ok {
		wait = time.Until(end)
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(program),
		chromedp.UserDataDir(filepath.Join(dir, "profile")),
		chromedp.WSURLReadTimeout(wait),
		chromedp.Flag("host-resolver-rules", "MAP * ~NOTFOUND"), // nothing from outside
		chromedp.ModifyCmdFunc(endWhole),
	)
	if os.Geteuid() == 0 { // who has no sandbox of Chromium's; the page is ours and runs no script
		options = append(options, chromedp.NoSandbox)
	}
	alloc, stop := chromedp.NewExecAllocator(ctx, options...)
	defer stop()
	tab, leave := chromedp.NewContext(alloc, chromedp.WithErrorf(func(string, ...any) {})) // what matters comes back as an error
	defer leave()
	address := url.URL{Scheme: "file", Path: filepath.ToSlash(file)}
	data, err := printed(tab, address.String(), on)
	if err == nil {
		err = whole(data)
	}
	switch {
	case errors.Is(ctx.Err(), context.DeadlineExceeded):
		return nil, ErrTime
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case err != nil:
		return nil, failure{err}
	}
	return data, nil
}

// failure sets in one line what Chromium said, of which only the start is the cause.
type failure struct{ err error }

func (f failure) Unwrap() error { return f.err }

func (f failure) Error() string {
	said := strings.Join(strings.Fields(f.err.Error()), " ")
	said = strings.TrimRight(strings.TrimSuffix(said, context.Canceled.Error()), ": ")
	text := []rune(said)
	if len(text) > 300 {
		text = append(text[:300], '…')
	}
	return "Chromium cannot print the page: " + string(text)
}

// whole refuses what is no PDF or only a part of one. ISO 32000-1, 7.5.2 and
// 7.5.5, fixes how a file begins and ends.
func whole(data []byte) error {
	switch {
	case len(data) == 0:
		return errors.New("it gave an empty file")
	case !bytes.HasPrefix(data, []byte("%PDF-")):
		return errors.New("it gave a file that is no PDF")
	case !bytes.HasSuffix(bytes.TrimRight(data, "\r\n"), []byte("%%EOF")):
		return errors.New("it gave a PDF that is cut off")
	}
	return nil
}

// printed opens an address in a tab and prints it.
func printed(tab context.Context, address string, on Paper) ([]byte, error) {
	yes := true
	return chromedp.Run(tab, func(ctx context.Context, _ *chromedp.Target) ([]byte, error) {
		if _, err := chromedp.Call(ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true}); err != nil {
			return nil, err
		}
		if err := chromedp.Do(ctx, chromedp.Navigate(address)); err != nil {
			return nil, err
		}
		out, err := chromedp.Call(ctx, page.PrintToPDF, page.PrintToPDFParams{PaperWidth: on.Width, PaperHeight: on.Height, PreferCSSPageSize: &yes, PrintBackground: &yes,
			GenerateTaggedPDF: &yes, GenerateDocumentOutline: &yes})
		return out.Data, err
	})
}
