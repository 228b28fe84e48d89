package atomicfile

import (
	"os"
	"path/filepath"
)

// replace puts data in the place of a file at once, or leaves the file alone.
// ready is asked when the data is on the disk. The library that the other
// systems use does not support Windows, where os.Rename replaces a file.
func replace(path string, data []byte, ready func(old string) error) (err error) {
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path))
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			_ = f.Close()
			_ = os.Remove(f.Name())
		}
	}()
	if _, err = f.Write(data); err != nil {
		return err
	}
	if err = f.Sync(); err != nil {
		return err
	}
	if err = f.Close(); err != nil {
		return err
	}
	if err = ready(path); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}
