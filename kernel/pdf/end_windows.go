package pdf

import (
	"os/exec"
	"time"
)

// endWhole waits no longer for what the programs that Chromium started hold open.
func endWhole(c *exec.Cmd) { c.WaitDelay = 2 * time.Second }
