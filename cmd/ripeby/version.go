package main

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"github.com/spf13/cobra"
)

func (p *program) versionCommand() *cobra.Command {
	return &cobra.Command{
		Use:     "version",
		Short:   "Print the version and the edition of the time zone rules in use",
		Example: "  ripeby version",
		Args:    p.noArguments,
		RunE: p.begin(func(*cobra.Command, []string) error {
			fmt.Fprintf(p.out, "ripeby %s (%s, %s/%s)\n", version(), runtime.Version(), runtime.GOOS, runtime.GOARCH)
			fmt.Fprintf(p.out, "time zone rules: %s\n", p.tzSource.edition("Europe/Dublin"))
			return nil
		}),
	}
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
