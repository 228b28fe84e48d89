// Command ohmwright computes design notes: notebooks in which an electronics
// designer works out the values of a circuit.
//
// Exit status: 0 done, 1 the note has failures, 2 the call was wrong. Data goes to
// standard output, talk and progress to standard error.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"

	"github.com/spf13/cobra"
)

// Version of the program.
const Version = "0.1.0"

func main() { os.Exit(Main()) }

// Main runs the command and gives its exit status.
func Main() int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	root := command()
	out := &printed{to: os.Stdout}
	root.SetOut(out)
	root.SetErr(os.Stderr)
	err := root.ExecuteContext(ctx)
	if out.err != nil {
		err = failures{"writing to standard output: " + out.err.Error()}
	}
	var failed failures
	switch {
	case err == nil:
		return 0
	case errors.As(err, &failed):
		if failed.msg != "" {
			fmt.Fprintln(os.Stderr, "ohmwright: "+failed.msg)
		}
		return 1
	}
	fmt.Fprintln(os.Stderr, "ohmwright: "+err.Error())
	return 2
}

// printed remembers that something could not be printed, so that no result
// is lost without a word.
type printed struct {
	to  io.Writer
	err error
}

func (p *printed) Write(b []byte) (int, error) {
	n, err := p.to.Write(b)
	if err != nil && p.err == nil {
		p.err = err
	}
	return n, err
}

// failures ends the program with status 1: the note has failures, which were told.
type failures struct{ msg string }

func (f failures) Error() string { return f.msg }

func command() *cobra.Command {
	root := &cobra.Command{
		Use:   "ohmwright",
		Short: "compute design notes for electronics",
		Long: `ohmwright computes design notes: notebooks of Go cells in which quantities carry
their units, and in which every value keeps the reason why it is what it is.`,
		Version:       Version,
		SilenceErrors: true,
		SilenceUsage:  true,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) > 0 {
				return fmt.Errorf("there is no command %q: see ohmwright --help", args[0])
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error { return c.Help() },
	}
	root.AddCommand(runCommand(), verifyCommand(), whyCommand(), compareCommand(), reportCommand(), installCommand(), kernelCommand())
	return root
}

// completeNotes offers notebooks and folders.
func completeNotes(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return []string{"ipynb"}, cobra.ShellCompDirectiveFilterFileExt
}
