// Package pdf prints a page of HTML with the Chromium that is installed.
//
//	data, err := pdf.Print(ctx, page)
//
// The page runs no script and loads nothing. The context's time limit holds for
// all of it: a Chromium that hangs is killed. [ErrNone] says that there is no
// Chromium.
package pdf

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// ErrNone says that there is no Chromium.
var ErrNone = errors.New("no Chromium was found")

// ErrTime says that Chromium took longer than it was given.
var ErrTime = errors.New("Chromium did not finish in time and was ended")

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

// foot numbers the pages. Chromium gives it a font of size zero otherwise.
const foot = `<div style="width:100%;font-size:8pt;font-family:sans-serif;color:#444;text-align:center"><span class="pageNumber"></span> of <span class="totalPages"></span></div>`

// Print gives the page as PDF.
func Print(ctx context.Context, html string) ([]byte, error) {
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
	tab, leave := chromedp.NewContext(alloc)
	defer leave()
	address := url.URL{Scheme: "file", Path: filepath.ToSlash(file)}
	data, err := printed(tab, address.String())
	switch {
	case errors.Is(ctx.Err(), context.DeadlineExceeded):
		return nil, ErrTime
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case err != nil:
		return nil, fmt.Errorf("Chromium cannot print the page: %w", err)
	}
	return data, nil
}

// printed opens an address in a tab and prints it.
func printed(tab context.Context, address string) ([]byte, error) {
	yes := true
	return chromedp.Run(tab, func(ctx context.Context, _ *chromedp.Target) ([]byte, error) {
		if _, err := chromedp.Call(ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true}); err != nil {
			return nil, err
		}
		if err := chromedp.Do(ctx, chromedp.Navigate(address)); err != nil {
			return nil, err
		}
		out, err := chromedp.Call(ctx, page.PrintToPDF, page.PrintToPDFParams{PreferCSSPageSize: &yes, PrintBackground: &yes,
			DisplayHeaderFooter: &yes, HeaderTemplate: "<span></span>", FooterTemplate: foot, GenerateTaggedPDF: &yes, GenerateDocumentOutline: &yes})
		return out.Data, err
	})
}
