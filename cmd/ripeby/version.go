package main

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"github.com/spf13/cobra"
)

func (p *program) versionCommand() *cobra.Command {
	var changes bool
	cmd := &cobra.Command{
		Use:   "version",
		Short: "Print the version and the edition of the time zone rules in use",
		Long: `Prints which ripeby this is and the edition of the time zone rules in use; with
--changes instead what became new in ripeby, newest first, each with its day.`,
		Example: `  ripeby version
  ripeby version --changes`,
		Args: p.noArguments,
	}
	cmd.Flags().BoolVar(&changes, "changes", false, "print what is new")
	cmd.RunE = p.begin(func(*cobra.Command, []string) error {
		if changes {
			return p.changes()
		}
		fmt.Fprintf(p.out, "ripeby %s (%s, %s/%s)\n", version(), runtime.Version(), runtime.GOOS, runtime.GOARCH)
		fmt.Fprintf(p.out, "time zone rules: %s\n", p.tzSource.edition("Europe/Dublin"))
		return nil
	})
	return cmd
}

// changes is ripeby version --changes.
func (p *program) changes() error {
	all, err := readChanges(changesPage)
	if err != nil {
		return fmt.Errorf("CHANGES.md: %w", err)
	}
	writeChanges(p.out, all, p.look(&settings{}).width)
	return nil
}

// version is what the build says of itself: a tag, else the commit, else "devel".
func version() string {
	build, ok := debug.ReadBuildInfo()
	if !ok {
		return "devel"
	}
	if v := build.Main.Version; v != "" && v != "(devel)" {
		return v
	}
	for _, s := range build.Settings {
		if s.Key == "vcs.revision" && len(s.Value) >= 12 {
			return "devel-" + s.Value[:12]
		}
	}
	return "devel"
}
