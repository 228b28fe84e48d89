//go:build !linux && !windows

package atomicfile

import "errors"

// exchange is not there: a rename does all but the look behind it.
func exchange(a, b string) error { return errors.ErrUnsupported }
