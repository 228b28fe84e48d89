package main

import (
	"context"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"ohmwright/kernel/folder"
	"ohmwright/kernel/jupyter"
)

func kernelCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "kernel FILE",
		Short: "serve a Jupyter front end (Jupyter starts this itself)",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) != 1 {
				return fmt.Errorf("kernel needs the connection file that Jupyter makes; to use Ohmwright in Jupyter, run ohmwright install")
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error {
			beside := folder.Working()
			engine, err := jupyter.NewEngine(beside.Open, beside.Note)
			if err != nil {
				return err
			}
			// The interrupt of a terminal is for the cell, not for the kernel.
			return jupyter.Serve(context.WithoutCancel(c.Context()), args[0], engine, info())
		},
	}
}

func info() jupyter.KernelInfo {
	return jupyter.KernelInfo{
		Implementation: "ohmwright",
		Version:        Version,
		Language: jupyter.LanguageInfo{Name: "go", Version: "1.26", Mimetype: "text/x-go", FileExtension: ".go",
			PygmentsLexer: "go", CodemirrorMode: "go"},
		Banner: "Ohmwright " + Version + ": cells of Go in which quantities carry their units, 24V, 4.7kΩ ± 1%",
	}
}

func installCommand() *cobra.Command {
	var spec jupyter.Spec
	var user, remove bool
	c := &cobra.Command{
		Use:   "install",
		Short: "register the kernel with Jupyter",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) > 0 {
				return fmt.Errorf("install takes no arguments: see ohmwright install --help")
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error {
			if user && spec.Prefix != "" {
				return fmt.Errorf("--user and --prefix exclude each other")
			}
			if remove {
				dir, err := jupyter.Remove(spec, "ohmwright")
				if err != nil {
					return failures{err.Error()}
				}
				fmt.Fprintf(c.OutOrStdout(), "removed %s\n", dir)
				return nil
			}
			return install(c.Context(), c.OutOrStdout(), spec)
		},
	}
	c.Flags().BoolVar(&user, "user", false, "register for this user, which happens without --prefix, too")
	c.Flags().StringVar(&spec.Prefix, "prefix", "", "register in `FOLDER`/share/jupyter/kernels: a Python environment, or /usr/local")
	c.Flags().StringVar(&spec.Name, "name", "ohmwright", "register under another `NAME`")
	c.Flags().BoolVar(&remove, "remove", false, "take the registration away")
	return c
}

func install(ctx context.Context, out io.Writer, spec jupyter.Spec) error {
	shown := "Ohmwright"
	if spec.Name != "ohmwright" { // two in one menu must be told apart
		shown += " (" + spec.Name + ")"
	}
	done, err := jupyter.Install(ctx, jupyter.InstallOptions{Spec: spec, Owner: "ohmwright", Version: Version, DisplayName: shown,
		Language: "go", Args: []string{"kernel", "{connection_file}"}})
	if err != nil {
		return failures{err.Error()}
	}
	what := "registered"
	if done.Replaced {
		what = "registered again"
	}
	fmt.Fprintf(out, "%s: %s\nthe kernel started and answered in %d ms\n", what, done.Dir, done.Start.Milliseconds())
	if len(done.FrontEnds) == 0 {
		fmt.Fprintln(out, "no Jupyter front end was found on this machine's PATH")
	}
	for _, f := range done.FrontEnds {
		fmt.Fprintf(out, "found: %s (%s)\n", f.Name, f.Path)
	}
	return nil
}
