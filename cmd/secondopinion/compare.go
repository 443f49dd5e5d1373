package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"ripeby/config"
	"ripeby/schedule/planfile"
)

// compareFlags are what the compare command is told.
type compareFlags struct {
	kitchens int
	first    int
	seed     uint64
	node     string
	python   string
	solvers  []string
	seconds  float64
	keep     string
	from     string
	loud     bool
	with     []string
	time     bool
	runs     int
}

func newCompare() *cobra.Command {
	f := compareFlags{}
	cmd := &cobra.Command{
		Use:   "compare [KITCHENDIR...]",
		Short: "compare plans with the best ones by general solvers, of kitchens that are drawn or given",
		RunE: func(cmd *cobra.Command, args []string) error {
			return f.run(cmd.Context(), cmd.OutOrStdout(), args)
		},
	}
	cmd.Flags().IntVar(&f.kitchens, "kitchens", 200, "how many kitchens to draw")
	cmd.Flags().IntVar(&f.first, "first", 0, "number of the first one")
	cmd.Flags().Uint64Var(&f.seed, "seed", 1, "seed of the draw")
	cmd.Flags().StringVar(&f.node, "node", ".", "folder whose node_modules holds the package minizinc")
	cmd.Flags().StringVar(&f.python, "python", "python3", "a python that has the package ortools, for cpsat")
	cmd.Flags().StringSliceVar(&f.solvers, "solvers", []string{"chuffed"}, "who answers: cpsat, and of minizinc chuffed, gecode, highs or cbc")
	cmd.Flags().Float64Var(&f.seconds, "seconds", 60, "most seconds of a solver for a kitchen: of the processor, and of cpsat by its own count of work")
	cmd.Flags().StringVar(&f.keep, "keep", "", "folder for the kitchens on which answers disagree")
	cmd.Flags().StringVar(&f.from, "from", "", "planning start of the kitchens given; else what their first line says")
	cmd.Flags().StringSliceVar(&f.with, "with", nil, "only drawn kitchens that have all of these, by the names that the report lists")
	cmd.Flags().BoolVar(&f.loud, "verbose", false, "print a line for every kitchen")
	cmd.Flags().BoolVar(&f.time, "time", false, "have all answer from nothing, and print who proved what in how much processor time")
	cmd.Flags().IntVar(&f.runs, "runs", 3, "how often each answers with --time; medians are printed")
	return cmd
}

// run compares on one kitchen after another.
func (f *compareFlags) run(ctx context.Context, out io.Writer, dirs []string) error {
	if f.kitchens < 1 || f.seconds <= 0 || f.runs < 1 {
		return fmt.Errorf("--kitchens %d --seconds %v --runs %d: want at least 1, more than 0, and at least 1", f.kitchens, f.seconds, f.runs)
	}
	if ctx == nil {
		ctx = context.Background()
	}
	var solvers []solver
	defer func() {
		for _, s := range solvers {
			s.close()
		}
	}()
	for _, name := range f.solvers {
		s, err := f.start(name)
		var not *missing
		if errors.As(err, &not) {
			fmt.Fprintf(out, "skipped: %v\n", not)
			return nil
		}
		if err != nil {
			return err
		}
		solvers = append(solvers, s)
	}
	t := newTally(f.solvers)
	if len(dirs) > 0 {
		for _, dir := range dirs {
			p, err := config.Load(dir, config.Options{From: f.fromOf(dir), Now: time.Now()})
			if err != nil {
				return err
			}
			if err := f.compare(ctx, out, solvers, t, &meeting{name: filepath.Base(dir), p: p}); err != nil {
				return err
			}
		}
	} else {
		for n := f.first; n < f.first+f.kitchens; n++ {
			if err := f.draw(ctx, out, solvers, t, n); err != nil {
				return err
			}
		}
	}
	t.print(out)
	return t.err()
}

// start starts a solver by its name.
func (f *compareFlags) start(name string) (solver, error) {
	if name == "cpsat" {
		return startCPSAT(f.python, f.seconds)
	}
	return startMinizinc(f.node, name, f.seconds)
}

var startLine = regexp.MustCompile(`^# --from "([^"]+)"`)

// fromOf is the planning start of a kitchen folder: as told, else as the first line of its
// kitchen.yaml has it, else the present.
func (f *compareFlags) fromOf(dir string) string {
	if f.from != "" {
		return f.from
	}
	text, err := os.ReadFile(filepath.Join(dir, "kitchen.yaml"))
	if m := startLine.FindSubmatch(text); err == nil && m != nil {
		return string(m[1])
	}
	return ""
}

// What a drawn kitchen has only by its earlier plan.
const (
	hasEarlier = "earlier plan"
	hasTaken   = "work taken on"
)

// draw compares on drawn kitchen n, and keeps its folder where answers disagree.
func (f *compareFlags) draw(ctx context.Context, out io.Writer, solvers []solver, t *tally, n int) error {
	d := newKitchen(f.seed, n)
	if slices.ContainsFunc(f.with, func(name string) bool { return name != hasEarlier && name != hasTaken && !d.has[name] }) {
		return nil
	}
	dir, err := os.MkdirTemp("", "kitchen")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	if err := d.write(dir); err != nil {
		return err
	}
	p, err := config.Load(dir, config.Options{From: d.from})
	if err != nil {
		t.unread++
		if f.loud {
			fmt.Fprintf(out, "kitchen %d: not a folder that can be planned: %.160s\n", n, err)
		}
		return nil
	}
	if d.has[hasEarlier], err = tellEarlier(ctx, p, f.seed, n); err != nil {
		return err
	}
	d.has[hasTaken] = len(p.TakenOn) > 0
	if slices.ContainsFunc(f.with, func(name string) bool { return !d.has[name] }) {
		return nil
	}
	differ := t.apart()
	m := &meeting{name: fmt.Sprintf("kitchen %d (from %s)", n, d.from), p: p, has: d.has}
	if err := f.compare(ctx, out, solvers, t, m); err != nil {
		return err
	}
	if f.keep == "" || t.apart() == differ {
		return nil
	}
	return f.store(d, m, filepath.Join(f.keep, fmt.Sprintf("%d-%d", f.seed, n)))
}

// store keeps a drawn kitchen's folder, and the solvers' own plans beside it.
func (f *compareFlags) store(d drawn, m *meeting, dir string) error {
	if err := d.write(dir); err != nil {
		return err
	}
	for _, a := range m.answers {
		if a.plan == nil {
			continue
		}
		text, err := planfile.Encode(a.plan, m.p.Kitchen.Zone)
		if err != nil {
			return err
		}
		if err := os.WriteFile(dir+"."+a.by+".json", text, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// compare has one kitchen planned and solved, and counts how the answers stand. One that is not
// stated is planned once, however many runs are timed.
func (f *compareFlags) compare(ctx context.Context, out io.Writer, solvers []solver, t *tally, m *meeting) error {
	runs := 1
	if f.time {
		runs = f.runs
	}
	for run := 0; run < runs && m.refused == ""; run++ {
		if err := m.decide(ctx); err != nil {
			return err
		}
		if m.st == nil {
			if err := m.state(); err != nil {
				return fmt.Errorf("%s: %w", m.name, err)
			}
		}
		for i := 0; i < len(solvers) && m.refused == ""; i++ {
			if err := m.solve(solvers[i], !f.time); err != nil {
				return err
			}
		}
	}
	if f.time {
		m.printTimes(out)
	}
	t.count(out, m, f.loud)
	return nil
}
