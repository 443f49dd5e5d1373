package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"
)

// How the command ends.
const (
	exitFine  = 0 // no plan and no answer is wrong, or there was nothing to do
	exitApart = 1 // a plan and the solver's answer cannot both be right
	exitFault = 2 // a wrong flag, a folder that cannot be read or stated, or a solver that failed
)

func main() {
	os.Exit(execute(os.Args[1:], os.Stdout, os.Stderr))
}

// errApart says that a plan and the general solver cannot both be right; it has been
// printed.
var errApart = errors.New("a plan and the general solver cannot both be right")

// execute runs the command with its arguments and gives the exit code.
func execute(args []string, out, errs io.Writer) int {
	root := &cobra.Command{
		Use:           "secondopinion",
		Short:         "hold plans against a general solver's",
		SilenceUsage:  true,
		SilenceErrors: true,
	}
	root.AddCommand(newExport(), newCompare())
	root.SetArgs(args)
	root.SetOut(out)
	root.SetErr(errs)
	err := root.Execute()
	if err == nil {
		return exitFine
	}
	fmt.Fprintln(errs, "secondopinion:", err)
	if errors.Is(err, errApart) {
		return exitApart
	}
	return exitFault
}
