package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"
)

// runFlags are what the run command is told.
type runFlags struct {
	dir     string
	sets    []string
	seconds float64
	work    int64
	sample  int
	only    []string
	edge    bool
}

// allSets are the sets in the order of the report.
var allSets = []string{"j30", "j60", "j10", "j20", "ubo10", "ubo20", "calendar"}

func newRun() *cobra.Command {
	f := runFlags{}
	cmd := &cobra.Command{
		Use:   "run",
		Short: "prove least makespans and compare them with the tables",
		Args:  cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return f.run(cmd.Context(), cmd.OutOrStdout())
		},
	}
	cmd.Flags().StringVar(&f.dir, "data", "", "folder with the sets and their tables")
	cmd.Flags().StringSliceVar(&f.sets, "set", allSets, "sets to run")
	cmd.Flags().Float64Var(&f.seconds, "seconds", 20, "most seconds for an instance; not used with --work")
	cmd.Flags().Int64Var(&f.work, "work", 0, "most counted work for an instance: the same answers on every machine")
	cmd.Flags().IntVar(&f.sample, "sample", 0, "only so many instances of each set, evenly spread; 0 for all")
	cmd.Flags().StringSliceVar(&f.only, "only", nil, "only instances whose names have one of these in them")
	cmd.Flags().BoolVar(&f.edge, "edge", false, "add timetable edge finding")
	cmd.MarkFlagRequired("data")
	return cmd
}

// run goes through the sets one after another.
func (f *runFlags) run(ctx context.Context, out io.Writer) error {
	if f.seconds <= 0 || f.work < 0 || f.sample < 0 {
		return fmt.Errorf("--seconds %v --work %d --sample %d: want more than 0, and none below 0", f.seconds, f.work, f.sample)
	}
	if _, err := os.Stat(f.dir); errors.Is(err, fs.ErrNotExist) {
		fmt.Fprintf(out, "skipped: there is no folder %s; the public sets are not part of the program\n", f.dir)
		return nil
	}
	contrary := 0
	for _, set := range f.sets {
		trials, err := trialsOf(f.dir, set)
		if errors.Is(err, fs.ErrNotExist) {
			fmt.Fprintf(out, "%s: skipped: %v\n", set, err)
			continue
		}
		if err != nil {
			return fmt.Errorf("%s: %w", set, err)
		}
		t := tally{set: set}
		for _, one := range spread(f.named(trials), f.sample) {
			if err := f.try(ctx, one, &t, out); err != nil {
				return fmt.Errorf("%s: %w", one.name, err)
			}
		}
		t.print(out)
		contrary += t.contrary
	}
	if contrary > 0 {
		return errContrary
	}
	return nil
}

// try answers one trial and counts it.
func (f *runFlags) try(ctx context.Context, one trial, t *tally, out io.Writer) error {
	in, err := read(one.path)
	if err != nil {
		return err
	}
	budget := f.work
	if budget == 0 {
		var stop context.CancelFunc
		ctx, stop = context.WithTimeout(ctx, time.Duration(f.seconds*float64(time.Second)))
		defer stop()
		budget = 1 << 60
	}
	start := time.Now()
	a := solve(ctx, in, one.calendar, budget, f.edge)
	a.took = time.Since(start)
	t.count(out, one, a)
	return nil
}

// named keeps the trials that --only names; all where it names none.
func (f *runFlags) named(list []trial) []trial {
	if len(f.only) == 0 {
		return list
	}
	return slices.DeleteFunc(list, func(one trial) bool {
		return !slices.ContainsFunc(f.only, func(part string) bool { return strings.Contains(one.name, part) })
	})
}

// spread picks n of the list, evenly; all for 0 or for more than there are.
func spread(list []trial, n int) []trial {
	if n == 0 || n >= len(list) {
		return list
	}
	var out []trial
	for i := range n {
		out = append(out, list[i*len(list)/n])
	}
	return out
}
