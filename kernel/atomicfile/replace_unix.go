//go:build !windows

package atomicfile

import (
	"os"
	"path/filepath"
	"syscall"

	"github.com/google/renameio/v2"
)

// replace puts data in the place of a file at once, or leaves the file alone.
// ready is asked when the data is on the disk.
func replace(path string, data []byte, ready func() error) error {
	f, err := renameio.NewPendingFile(path,
		renameio.WithTempDir(filepath.Dir(path)), // the same disk, always
		renameio.WithPermissions(0o666),          // a new file: less the umask
		renameio.WithExistingPermissions())
	if err != nil {
		return err
	}
	defer f.Cleanup() // after an error above it removes what that has left
	keepOwner(path, f.File)
	if _, err := f.Write(data); err != nil {
		return err
	}
	if err := f.Sync(); err != nil {
		return err
	}
	if err := ready(); err != nil {
		return err
	}
	return f.CloseAtomicallyReplace()
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
