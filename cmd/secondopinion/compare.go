package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"ripeby/cmd/internal/generalsolver"
	"ripeby/config"
	"ripeby/schedule"
	"ripeby/schedule/judge"
	"ripeby/schedule/planfile"
	"ripeby/schedule/planner"
)

// compareFlags are what the compare command is told.
type compareFlags struct {
	kitchens int
	first    int
	seed     uint64
	node     string
	solver   string
	seconds  float64
	keep     string
	folders  []string
	from     string
	loud     bool
	with     []string
}

func newCompare() *cobra.Command {
	f := compareFlags{}
	cmd := &cobra.Command{
		Use:   "compare",
		Short: "compare plans of small kitchens with the best ones by a general solver",
		Args:  cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return f.run(cmd.Context(), cmd.OutOrStdout())
		},
	}
	cmd.Flags().IntVar(&f.kitchens, "kitchens", 200, "how many kitchens to draw")
	cmd.Flags().IntVar(&f.first, "first", 0, "number of the first one")
	cmd.Flags().Uint64Var(&f.seed, "seed", 1, "seed of the draw")
	cmd.Flags().StringVar(&f.node, "node", ".", "folder whose node_modules holds the package minizinc")
	cmd.Flags().StringVar(&f.solver, "solver", "chuffed", "the package's solver: chuffed, gecode, highs or cbc")
	cmd.Flags().Float64Var(&f.seconds, "seconds", 60, "most seconds of the solver for a kitchen")
	cmd.Flags().StringVar(&f.keep, "keep", "", "folder for the kitchens on which the two disagree")
	cmd.Flags().StringSliceVar(&f.folders, "folder", nil, "compare on these kitchen folders, and draw none")
	cmd.Flags().StringVar(&f.from, "from", "", "planning start for --folder")
	cmd.Flags().StringSliceVar(&f.with, "with", nil, "only drawn kitchens that have all of these, by the names that the report lists")
	cmd.Flags().BoolVar(&f.loud, "verbose", false, "print a line for every kitchen")
	return cmd
}

// run compares on one kitchen after another.
func (f *compareFlags) run(ctx context.Context, out io.Writer) error {
	if f.kitchens < 1 || f.seconds <= 0 {
		return fmt.Errorf("--kitchens %d --seconds %v: want at least 1, and more than 0", f.kitchens, f.seconds)
	}
	if ctx == nil {
		ctx = context.Background()
	}
	dist, err := generalsolver.Find(f.node)
	if err != nil {
		fmt.Fprintf(out, "skipped: %v\n", err)
		return nil
	}
	script, err := generalsolver.Start(secondScript, dist, f.solver)
	if err != nil {
		return err
	}
	defer script.Close()
	s := &solver{seconds: f.seconds, script: script}
	t := newShares()
	if len(f.folders) > 0 {
		for _, dir := range f.folders {
			p, err := config.Load(dir, config.Options{From: f.from, Now: time.Now()})
			if err != nil {
				return err
			}
			if err := f.compare(ctx, out, s, t, &meeting{name: dir, p: p}); err != nil {
				return err
			}
		}
		t.print(out)
		return t.err()
	}
	for n := f.first; n < f.first+f.kitchens; n++ {
		if err := f.draw(ctx, out, s, t, n); err != nil {
			return err
		}
	}
	t.print(out)
	return t.err()
}

// draw compares on drawn kitchen n, and keeps its folder where the two disagree.
func (f *compareFlags) draw(ctx context.Context, out io.Writer, s *solver, t *shares, n int) error {
	d := newKitchen(f.seed, n)
	if slices.ContainsFunc(f.with, func(name string) bool { return !d.has[name] }) {
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
	differ := t.wrong + t.worse
	m := &meeting{name: fmt.Sprintf("kitchen %d (from %s)", n, d.from), p: p, has: d.has}
	if err := f.compare(ctx, out, s, t, m); err != nil {
		return err
	}
	if f.keep == "" || t.wrong+t.worse == differ {
		return nil
	}
	return f.store(d, m, filepath.Join(f.keep, fmt.Sprintf("%d-%d", f.seed, n)))
}

// store keeps a drawn kitchen's folder, and the solver's own plan beside it.
func (f *compareFlags) store(d drawn, m *meeting, dir string) error {
	if err := d.write(dir); err != nil || m.answer == nil {
		return err
	}
	text, err := planfile.Encode(m.answer, m.p.Kitchen.Zone)
	if err != nil {
		return err
	}
	return os.WriteFile(dir+".json", text, 0o644)
}

// meeting is one kitchen with both answers to it.
type meeting struct {
	name string
	p    *schedule.Problem
	has  map[string]bool

	plan   *schedule.Plan
	faults []judge.Violation
	best   schedule.Score
	proved int               // parts of best that are proved
	none   bool              // the solver says that nothing at all is allowed
	says   string            // what else the solver says
	answer *schedule.Plan    // the solver's own plan
	broken []judge.Violation // by it
	failed string            // what the solver failed with
	took   time.Duration
}

// compare has one kitchen planned and solved, and counts how the answers stand.
func (f *compareFlags) compare(ctx context.Context, out io.Writer, s *solver, t *shares, m *meeting) error {
	plan, err := planner.Plan(ctx, m.p, planner.Options{})
	if err != nil {
		return fmt.Errorf("%s: %w", m.name, err)
	}
	m.plan, m.faults = plan, judge.Check(m.p, plan)
	began := time.Now()
	text, err := m.solve(s)
	if err != nil {
		return fmt.Errorf("%s: %w", m.name, err)
	}
	m.took = time.Since(began)
	t.count(out, m, text, f.loud)
	return nil
}

// solve has the kitchen answered by the solver; text says why it is not, "" when it is.
//
// Where nothing is short in the plan, a better one has no more batches, so that as many
// slots of each cheese are enough. Elsewhere all that a best plan can need are stated.
func (m *meeting) solve(s *solver) (text string, err error) {
	slots := 0
	if m.plan.Score.PromisedShort == 0 && m.plan.Score.Short == 0 {
		slots = max(1, m.plan.Score.Batches)
	}
	st, err := newStatement(m.p, slots)
	var no *refusal
	if errors.As(err, &no) {
		return no.Error(), nil
	}
	if err != nil {
		return "", err
	}
	r, err := s.ask(st.dzn(), st.partsOf(m.plan.Score))
	switch {
	case err != nil:
		return "", err
	case r.Status == "fault":
		m.failed = r.Text
		return "", nil
	}
	m.best, m.proved, m.none, m.says = st.scoreOf(r.Parts), len(r.Parts), r.Status == "none", r.Text
	if m.none && m.outOfCourse() {
		return "what is under way cannot go on as written", nil
	}
	// What has begun is told by the planner only; the judge would miss it.
	if len(r.Last.Size) > 0 && len(m.p.Begun) == 0 {
		m.answer = st.plan(&r.Last)
		m.broken = breaches(m.p, m.answer)
	}
	return "", nil
}

// outOfCourse reports whether the plan says that something under way does not go as the
// recipe has it: a hold that runs over, a batch that is stuck, boxes without room.
func (m *meeting) outOfCourse() bool {
	return slices.ContainsFunc(m.plan.Warnings, func(w schedule.Warning) bool {
		return w.Code == "hold-overrun" || w.Code == "begun-stuck" || w.Code == "boxes-do-not-fit"
	})
}
