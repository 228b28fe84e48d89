// Package atomicfile writes a file whole or not at all: a crash, a full disk or
// a kill at any moment leaves the old file or the new one, and at worst a hidden
// file beside it.
package atomicfile

// Write puts data in the place of a file at once, or leaves the file alone.
// ready, if there is one, is asked when the data is on the disk, with the place
// of the old file; its error leaves the file alone as well. Where the system can
// exchange two files, ready is asked once more when they are, about the file
// that was there at that moment, and its error puts that one back: so a program
// that saves between a look and the exchange loses nothing. The permissions of a
// file that is there stay.
func Write(path string, data []byte, ready func(old string) error) error {
	if ready == nil {
		ready = func(string) error { return nil }
	}
	return replace(path, data, ready)
}
