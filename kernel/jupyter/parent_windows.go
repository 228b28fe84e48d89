package jupyter

import (
	"context"
	"os"
	"strconv"
	"syscall"
)

// watchParent calls ended when the process that started the kernel has ended.
// On Windows JPY_PARENT_PID is an inherited handle of it.
func watchParent(_ context.Context, ended func()) {
	handle, err := strconv.ParseUint(os.Getenv("JPY_PARENT_PID"), 10, 64)
	if err != nil || handle <= 1 {
		return
	}
	if e, err := syscall.WaitForSingleObject(syscall.Handle(handle), syscall.INFINITE); err == nil && e == syscall.WAIT_OBJECT_0 {
		ended()
	}
}
