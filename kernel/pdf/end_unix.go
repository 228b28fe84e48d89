//go:build unix

package pdf

import (
	"os/exec"
	"syscall"
	"time"
)

// endWhole makes the end of a program that of those which it started, too, and
// waits no longer for what they hold open.
func endWhole(c *exec.Cmd) {
	if c.SysProcAttr == nil {
		c.SysProcAttr = &syscall.SysProcAttr{}
	}
	c.SysProcAttr.Setpgid = true
	c.Cancel = func() error { return syscall.Kill(-c.Process.Pid, syscall.SIGKILL) }
	c.WaitDelay = 2 * time.Second
}
