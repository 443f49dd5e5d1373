package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"

	"github.com/spf13/cobra"
)

// How the command ends.
const (
	exitFine     = 0 // nothing contradicts a table, or there was nothing to do
	exitContrary = 1 // an answer contradicts a table
	exitFault    = 2 // a wrong flag, or a file that cannot be read
)

func main() {
	runtime.GOMAXPROCS(1) // what is measured is one core
	os.Exit(execute(os.Args[1:], os.Stdout, os.Stderr))
}

// errContrary says that an answer contradicts a table; it has been printed.
var errContrary = errors.New("an answer contradicts a published one")

// execute runs the command with its arguments and gives the exit code.
func execute(args []string, out, errs io.Writer) int {
	root := &cobra.Command{
		Use:           "cpbench",
		Short:         "measure the constraint kernel on public benchmark sets",
		SilenceUsage:  true,
		SilenceErrors: true,
	}
	root.AddCommand(newRun())
	root.SetArgs(args)
	root.SetOut(out)
	root.SetErr(errs)
	err := root.Execute()
	if err == nil {
		return exitFine
	}
	fmt.Fprintln(errs, "cpbench:", err)
	if errors.Is(err, errContrary) {
		return exitContrary
	}
	return exitFault
}
