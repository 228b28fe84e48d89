package folder_test

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"ohmwright/kernel/folder"
)

// A folder beside which stands another that must stay out of reach.
func prepared(t *testing.T) folder.Folder {
	t.Helper()
	top := t.TempDir()
	for name, text := range map[string]string{
		"secret.csv": "secret", "note/hold.csv": "a", "note/curves/esr.csv": "b", "note/.hidden/x.csv": "c", "note/board.ipynb": "{}", "note/curves/näme (1).csv": "d",
	} {
		path := filepath.Join(top, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(filepath.Join(top, "note", "large.csv"), make([]byte, 6<<20), 0o666); err != nil {
		t.Fatal(err)
	}
	if runtime.GOOS != "windows" {
		for to, from := range map[string]string{"inside.csv": "hold.csv", "outside.csv": "../secret.csv", "absolute.csv": filepath.Join(top, "secret.csv"), "up": "..", "lost.csv": "nothing.csv"} {
			if err := os.Symlink(from, filepath.Join(top, "note", to)); err != nil {
				t.Fatal(err)
			}
		}
	}
	return folder.Of(filepath.Join(top, "note"))
}

func TestOpen(t *testing.T) {
	t.Parallel()
	f := prepared(t)
	for name, want := range map[string]string{"hold.csv": "a", "curves/esr.csv": "b", "curves/näme (1).csv": "d", "inside.csv": "a"} {
		if runtime.GOOS == "windows" && name == "inside.csv" {
			continue
		}
		if got, err := f.Open(name); err != nil || string(got) != want {
			t.Errorf("%s: %q, %v", name, got, err)
		}
	}
	if text, err := f.Open("large.csv"); err != nil || len(text) != folder.Most {
		t.Errorf("of a large file: %d bytes, %v", len(text), err)
	}
}

func TestRefusals(t *testing.T) {
	t.Parallel()
	f := prepared(t)
	noName := func(name string) string {
		return `"` + name + `" is no name of a file in the note's folder: write it as in Table("curve.csv") or Table("folder/curve.csv"), without a leading / or .`
	}
	cases := []struct{ name, want string }{
		{"", noName("")},
		{".", noName(".")},
		{"../secret.csv", noName("../secret.csv")},
		{"curves/../../secret.csv", noName("curves/../../secret.csv")},
		{"/etc/hosts", noName("/etc/hosts")},
		{"./hold.csv", noName("./hold.csv")},
		{"curves/", noName("curves/")},
		{`curves\esr.csv`, noName(`curves\\esr.csv`)},
		{"hold.csv\x00", noName(`hold.csv\x00`)},
		{"hodl.csv", "there is no file hodl.csv in the note's folder: did you mean hold.csv?"},
		{"esr.csv", "there is no file esr.csv in the note's folder: did you mean curves/esr.csv?"},
		{"hold.csv/x", "hold.csv/x cannot be read: not a directory"},
		{"curves", `curves is a folder: write the name of a file in it, as in Table("curves/curve.csv")`},
	}
	if runtime.GOOS != "windows" {
		cases = append(cases, []struct{ name, want string }{
			{"outside.csv", "outside.csv leads out of the note's folder: put a copy of the file beside the note"},
			{"absolute.csv", "absolute.csv leads out of the note's folder: put a copy of the file beside the note"},
			{"up/secret.csv", "up/secret.csv leads out of the note's folder: put a copy of the file beside the note"},
		}...)
	}
	for _, c := range cases {
		text, err := f.Open(c.name)
		if err == nil {
			t.Errorf("%q: it gives %q", c.name, text)
			continue
		}
		if err.Error() != c.want {
			t.Errorf("%q:\n\tsays %v\n\twant %s", c.name, err, c.want)
		}
	}
	if _, err := folder.Of(filepath.Join(t.TempDir(), "gone")).Open("hold.csv"); err == nil || err.Error() != "the note's folder cannot be read: no such file or directory" && runtime.GOOS != "windows" {
		t.Errorf("of a folder that is not there: %v", err)
	}
}

// Where no name is near, what tables there are.
func TestNearNames(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		files []string
		want  string
	}{
		{nil, "put it beside the note"},
		{[]string{"hold.csv"}, "its one table is hold.csv"},
		{[]string{"hold.csv", "sub/b.CSV", "notes.txt"}, "its tables are hold.csv and sub/b.CSV"},
		{[]string{"a.csv", "b.csv", "c.csv", "d.csv", "e.csv", "f.csv", "g.csv"}, "its tables are a.csv, b.csv, c.csv, d.csv, e.csv and 2 more"},
	} {
		dir := t.TempDir()
		for _, name := range c.files {
			if err := os.MkdirAll(filepath.Dir(filepath.Join(dir, name)), 0o777); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(dir, name), nil, 0o666); err != nil {
				t.Fatal(err)
			}
		}
		_, err := folder.Of(dir).Open("inductance-over-current")
		if want := "there is no file inductance-over-current in the note's folder: " + c.want; err == nil || err.Error() != want {
			t.Errorf("\n\tsays %v\n\twant %s", err, want)
		}
	}
}

// Where a front end starts the kernel somewhere else, the message says so.
func TestWorking(t *testing.T) {
	t.Parallel()
	const want = "there is no file nowhere-to-be-found.csv in the note's folder: put it beside the note (Jupyter starts the kernel in the notebook's folder; another front end may not)"
	if _, err := folder.Working().Open("nowhere-to-be-found.csv"); err == nil || err.Error() != want {
		t.Errorf("says %v", err)
	}
}
