//go:build unix

package jupyter

import (
	"context"
	"os"
	"strconv"
	"syscall"
	"time"
)

// watchParent calls ended when the process that started the kernel has ended:
// one that was killed cannot say goodbye, and the kernel would stay for ever.
// Jupyter names that process in JPY_PARENT_PID; without it (a kernel that was
// started by hand, or on another host) nobody is watched.
func watchParent(ctx context.Context, ended func()) {
	pid, err := strconv.Atoi(os.Getenv("JPY_PARENT_PID"))
	if err != nil || pid <= 1 {
		return
	}
	// A wrapper may stand between (conda, a shell): then that one is our
	// parent, and the process named is asked for directly.
	first := os.Getppid()
	direct := first == pid
	if !direct && !exists(pid) {
		return // a number of another process name space
	}
	tick := time.NewTicker(time.Second)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
			if os.Getppid() != first || !direct && !exists(pid) {
				ended()
				return
			}
		}
	}
}

func exists(pid int) bool {
	err := syscall.Kill(pid, 0)
	return err == nil || err == syscall.EPERM
}
