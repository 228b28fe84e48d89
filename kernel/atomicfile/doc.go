// Package atomicfile writes a file whole or not at all: a crash, a full disk or
// a kill at any moment leaves the old file or the new one, and at worst a hidden
// file beside it.
package atomicfile

// Write puts data in the place of a file at once, or leaves the file alone.
// ready, if there is one, is asked when the data is on the disk; its error
// leaves the file alone as well. The permissions of a file that is there stay.
func Write(path string, data []byte, ready func() error) error {
	if ready == nil {
		ready = func() error { return nil }
	}
	return replace(path, data, ready)
}
