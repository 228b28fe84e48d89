//go:build !windows

package atomicfile

import (
	"bytes"
	"os"
	"path/filepath"
	"syscall"

	"github.com/google/renameio/v2"
)

// replace puts data in the place of a file at once, or leaves the file alone.
// ready is asked when the data is on the disk.
func replace(path string, data []byte, ready func(old string) error) error {
	f, err := renameio.NewPendingFile(path,
		renameio.WithTempDir(filepath.Dir(path)), // the same disk, always
		renameio.WithPermissions(0o666),          // a new file: less the umask
		renameio.WithExistingPermissions())
	if err != nil {
		return err
	}
	defer f.Cleanup() // removes what lies under the other name, unless that was renamed
	keepOwner(path, f.File)
	if _, err := f.Write(data); err != nil {
		return err
	}
	if err := f.Sync(); err != nil {
		return err
	}
	if err := ready(path); err != nil {
		return err
	}
	if exchange(f.Name(), path) != nil { // there is no old file, or the system cannot do it
		return f.CloseAtomicallyReplace()
	}
	if err := ready(f.Name()); err != nil {
		putBack(f.Name(), path, data)
		return err
	}
	return nil
}

// putBack gives a file its place back that lies under another name now, and
// leaves what was saved in its place meanwhile there.
func putBack(name, path string, data []byte) {
	if exchange(name, path) != nil {
		return // somebody deleted it meanwhile
	}
	if text, err := os.ReadFile(name); err == nil && !bytes.Equal(text, data) {
		_ = exchange(name, path) // it was not our own file: it is newer than the other
	}
}

// keepOwner leaves a user's file the user's when root runs the program. Others
// may not give files away, so a refusal is no failure.
func keepOwner(path string, f *os.File) {
	info, err := os.Stat(path)
	if err != nil {
		return
	}
	if st, ok := info.Sys().(*syscall.Stat_t); ok && (int(st.Uid) != os.Geteuid() || int(st.Gid) != os.Getegid()) {
		_ = f.Chown(int(st.Uid), int(st.Gid))
	}
}
