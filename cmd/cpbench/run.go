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

	"github.com/spf13/cobra"

	"ripeby/cmd/cpbench/psplib"
	"ripeby/cmd/internal/generalsolver"
	"ripeby/cmd/internal/processor"
	"ripeby/schedule/cp/kernel"
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
	beside  string   // folder of the yardstick's package
	besides []string // sets that it answers too
}

// allSets are the sets in the order of the report.
var allSets = []string{"j30", "j60", "j10", "j20", "ubo10", "ubo20", "calendar", "wet", sampleSet}

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
	cmd.Flags().Float64Var(&f.seconds, "seconds", 20, "most seconds of processor time for an instance; not used with --work")
	cmd.Flags().Int64Var(&f.work, "work", 0, "most counted work for an instance: the same answers on every machine")
	cmd.Flags().IntVar(&f.sample, "sample", 0, "only so many instances of each set, evenly spread; 0 for all")
	cmd.Flags().StringSliceVar(&f.only, "only", nil, "only instances whose names have one of these in them")
	cmd.Flags().BoolVar(&f.edge, "edge", false, "add timetable edge finding")
	cmd.Flags().StringVar(&f.beside, "yardstick", ".", "folder with the npm package minizinc, whose solver answers beside the kernel")
	cmd.Flags().StringSliceVar(&f.besides, "yardstick-set", []string{"wet", sampleSet}, "sets that the yardstick answers too")
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
	y := f.yardstick(out)
	if y != nil {
		defer y.end()
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
		n, err := f.set(ctx, out, set, spread(f.named(trials), f.sample), y)
		if err != nil {
			return err
		}
		contrary += n
	}
	if contrary > 0 {
		return errContrary
	}
	return nil
}

// yardstick is what answers beside the kernel; nil, with a line that says why,
// where it is not there, and where no set asks for it.
func (f *runFlags) yardstick(out io.Writer) *yardstick {
	if !slices.ContainsFunc(f.sets, func(set string) bool { return slices.Contains(f.besides, set) }) {
		return nil
	}
	dist, err := generalsolver.Find(f.beside)
	if err != nil {
		fmt.Fprintln(out, "the yardstick is skipped:", err)
		return nil
	}
	return &yardstick{dist: dist}
}

// searches are the two searches of the yardstick: the one that the models give,
// and its own.
var searches = []struct {
	name string
	free bool
}{{"given search", false}, {"free search", true}}

// set answers the trials of a set, prints what came out, and gives how many answers
// contradict a table.
func (f *runFlags) set(ctx context.Context, out io.Writer, set string, trials []trial, y *yardstick) (int, error) {
	if !slices.Contains(f.besides, set) || set == "calendar" {
		y = nil
	}
	tallies := []*tally{{who: set}}
	if y != nil {
		for _, one := range searches {
			tallies = append(tallies, &tally{who: set + ", the yardstick's " + one.name})
		}
	}
	for _, one := range trials {
		in, err := read(one.path)
		if err != nil {
			return 0, fmt.Errorf("%s: %w", one.name, err)
		}
		a := f.try(ctx, in, one)
		tallies[0].count(out, one, in, a)
		if set == "calendar" && a.status == kernel.Impossible {
			f.explain(ctx, out, in, one)
		}
		if err := askBeside(out, tallies, a, y, one, in, f.seconds); err != nil {
			fmt.Fprintf(out, "%s: %v; it is left out from here on\n", one.name, err)
			y.fail()
		}
	}
	contrary := 0
	for _, t := range tallies {
		t.print(out)
		contrary += t.contrary
	}
	return contrary, nil
}

// askBeside has the yardstick answer a trial with each of its searches.
// What contradicts the kernel's own answer counts as the kernel's.
func askBeside(out io.Writer, tallies []*tally, own answer, y *yardstick, one trial, in *psplib.Dated, seconds float64) error {
	for k, t := range tallies[1:] {
		if y.failed {
			return nil
		}
		a, err := y.ask(in, searches[k].free, seconds)
		if err != nil {
			return err
		}
		t.count(io.Discard, one, in, a)
		if own.against(a) || a.against(own) {
			tallies[0].contrary++
			fmt.Fprintf(out, "%s: CONTRADICTS THE YARDSTICK: %v; its %s says %v\n", one.name, own, searches[k].name, a)
		}
	}
	return nil
}

// explain prints why a trial is impossible.
func (f *runFlags) explain(ctx context.Context, out io.Writer, in *psplib.Dated, one trial) {
	ctx, budget := f.limit(ctx)
	text := "impossible; no reason found within the limit"
	if r, ok := why(ctx, &in.Instance, one.calendar, budget); ok {
		text = r.say(&in.Instance, one.calendar)
	}
	fmt.Fprintf(out, "%s: %s\n", one.name, text)
}

// limit gives what one question may take.
func (f *runFlags) limit(ctx context.Context) (context.Context, int64) {
	if f.work > 0 {
		return ctx, f.work
	}
	return within(ctx, f.seconds), 1 << 60
}

// try answers one trial.
func (f *runFlags) try(ctx context.Context, in *psplib.Dated, one trial) answer {
	ctx, budget := f.limit(ctx)
	start := processor.Spent()
	var a answer
	if in.Dues != nil {
		a = solveWanted(ctx, in, budget)
	} else {
		a = solve(ctx, &in.Instance, one.calendar, budget, f.edge)
	}
	a.took = processor.Spent() - start
	return a
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
