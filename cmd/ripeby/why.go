package main

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync/atomic"
	"time"

	"github.com/spf13/cobra"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planner/whatif"
)

// whyOptions are the options of ripeby why.
type whyOptions struct {
	target  string
	from    string
	oneMore bool
	json    bool
	csv     bool
	demo    bool
}

func (p *program) whyCommand() *cobra.Command {
	var opt whyOptions
	cmd := &cobra.Command{
		Use:   "why",
		Short: "Say why something is short, and what would change that",
		Long: `For every want that the plan in force leaves short: which facts of the kitchen
stand in the way together, and which single change would give it more while every
other target gets no less. Changes are tried in this order, each with a plan that
shows it: what is neither bought nor asked of anybody, then one more of something or
as many as a batch takes, then an hour of somebody's, then a later date.

With --one-more the whole plan is made again with one more of each thing, and with
an hour more of each person's, and the table says what each would buy. That takes
as long as so many plans.

Nothing is written or changed.

` + exitTable,
		Example: `  ripeby why -C my-kitchen
  ripeby why -C my-kitchen --target "Easter market"
  ripeby why -C my-kitchen --one-more`,
		Args: p.noArguments,
	}
	f := cmd.Flags()
	folderFlags(f)
	f.StringVar(&opt.target, "target", "", "only the target of this `NAME`")
	f.StringVar(&opt.from, "from", "", "plan from this `MOMENT` (default: now, or the plan's own start when that lies ahead)")
	f.BoolVar(&opt.oneMore, "one-more", false, "say what one more of each thing would buy")
	f.BoolVar(&opt.json, "json", false, "print the answer as JSON and nothing else")
	f.BoolVar(&opt.csv, "csv", false, "print the answer as CSV, a line for each change")
	cmd.MarkFlagsMutuallyExclusive("csv", "json")
	f.Int64("work", 0, fmt.Sprintf("stop after `N` units of work for each short want (default %d), or each plan of --one-more (default %d)", whatif.FixWork, whatif.WorthWork))
	outFlag(f)
	tableFlags(f)
	demo := demoFlag(f)
	cmd.RunE = p.begin(func(cmd *cobra.Command, _ []string) error {
		opt.demo = *demo
		s, err := p.settings(cmd.Flags(), opt.demo)
		if err != nil {
			return err
		}
		return p.why(cmd.Context(), s, opt)
	})
	return cmd
}

// why is ripeby why.
func (p *program) why(ctx context.Context, s *settings, opt whyOptions) error {
	problem, err := p.inForce(s, opt.demo, opt.from)
	if err != nil {
		return err
	}
	a := whyAnswer{problem: problem, width: p.look(s).width}
	show := newProgress(p.err, p.now, p.env)
	defer show.clear()
	if a.oneMore = opt.oneMore; a.oneMore {
		if !whatif.InForce(ctx, problem) {
			return p.notInForce(s, opt.demo)
		}
		var plans atomic.Int64
		a.worths = whatif.WhatMoreBuys(ctx, problem, s.work, func(of int) {
			show.say(fmt.Sprintf("%d of %d plans with one more of something made", plans.Add(1), of))
		})
		show.clear()
		return a.tell(p.out, opt)
	}
	wants := wantsOf(problem)
	short, err := shortWants(problem, wants, opt.target)
	if err != nil {
		return err
	}
	if len(short) == 0 && !whatif.InForce(ctx, problem) {
		return p.notInForce(s, opt.demo)
	}
	trying := func(d, tried, of int) {
		show.say(fmt.Sprintf("%s, %s: trying change %d of %d", wants[d].target, wants[d].cheese, tried+1, of))
	}
	for d, answer := range whatif.WhyShort(ctx, problem, short, whatif.WhyOptions{Work: s.work, Trying: trying}) {
		if answer == nil {
			return p.notInForce(s, opt.demo)
		}
		for i := range answer.Fixes {
			if err := p.vouch(answer.Fixes[i].With, answer.Fixes[i].Plan); err != nil {
				return err
			}
		}
		a.wants, a.whys = append(a.wants, wants[d]), append(a.whys, answer)
		if p.code = exitShort; !opt.json && !opt.csv {
			show.wipe()
			a.writeWant(p.out, len(a.whys)-1)
		}
	}
	if opt.json || opt.csv || len(a.whys) == 0 {
		return a.tell(p.out, opt)
	}
	if text := a.caution(); text != "" {
		line(p.out, "")
		say(p.out, a.width, text)
	}
	return nil
}

// shortWants are those of the wants that the plan in force leaves short, of one target where it is named.
func shortWants(problem *schedule.Problem, wants []wanted, target string) (short []int, err error) {
	named := func(name string) bool { return target == "" || sameTarget(name, target) }
	if target != "" && !slices.ContainsFunc(problem.Targets, func(t schedule.Target) bool { return named(t.Name) }) {
		return nil, wrong("there is no target %q in targets.yaml from %s on", target, moment(problem.From, problem.Kitchen.Zone))
	}
	for d, w := range wants {
		if named(w.target) && shortOf(problem.Earlier, w) > 0 {
			short = append(short, d)
		}
	}
	return short, nil
}

// sameTarget matches a target's name, with or without the date of a repeated one.
func sameTarget(name, asked string) bool {
	return name == asked || strings.HasPrefix(name, asked+" 20")
}

// wanted is one want of a problem.
type wanted struct {
	target string
	by     resources.Moment
	want   int
	cheese string
}

// wantsOf lists a problem's wants in its order.
func wantsOf(problem *schedule.Problem) []wanted {
	var out []wanted
	for i := range problem.Targets {
		t := &problem.Targets[i]
		for k := range t.Wants {
			out = append(out, wanted{t.Name, t.By, k, t.Wants[k].Cheese})
		}
	}
	return out
}

// shortOf is how many pieces a plan leaves a want short of.
func shortOf(plan *schedule.Plan, w wanted) int {
	i := slices.IndexFunc(plan.Targets, func(t schedule.WantResult) bool {
		return t.Target == w.target && t.By == w.by && t.Want == w.want
	})
	if i < 0 {
		return 0
	}
	return plan.Targets[i].Short
}

// whyAnswer is what ripeby why tells.
type whyAnswer struct {
	problem *schedule.Problem
	wants   []wanted
	whys    []*whatif.Why
	oneMore bool
	worths  []whatif.Worth
	width   int
}

// tell tells the whole answer, to a program or to a person.
func (a *whyAnswer) tell(w io.Writer, opt whyOptions) error {
	switch {
	case opt.json:
		return a.json(w)
	case opt.csv && a.oneMore:
		return a.worthCSV(w)
	case opt.csv:
		return a.csv(w)
	case a.oneMore:
		a.writeWorth(w)
	default:
		say(w, a.width, "Nothing is short.")
	}
	return nil
}

// writeWant tells a person about one want that is short: each as soon as it is known.
func (a *whyAnswer) writeWant(w io.Writer, i int) {
	if i > 0 {
		line(w, "")
	}
	for _, text := range a.shortTexts(i) {
		say(w, a.width, text)
	}
	fixes := a.fixLines(i)
	if len(fixes) == 0 {
		say(w, a.width, noFix)
		return
	}
	_, _ = io.WriteString(w, whatHelps+":\n")
	for _, text := range fixes {
		item(w, a.width, text)
	}
}

// What is told of changes.
const (
	noFix     = "No single change that was tried helps; two together may."
	whatHelps = "What would change that, each by itself"
)

// shortTexts say what a want is short of, and why.
func (a *whyAnswer) shortTexts(i int) []string {
	x := a.wants[i]
	return []string{fmt.Sprintf("%s, %s: %s short of %s.", x.target, moment(x.by, a.problem.Kitchen.Zone), schedule.Counted(shortOf(a.problem.Earlier, x), "piece"), x.cheese),
		a.whys[i].Because}
}

// fixLines are the changes that would give a want more.
func (a *whyAnswer) fixLines(i int) (lines []string) {
	for _, f := range a.whys[i].Fixes {
		text := fmt.Sprintf("%s: %s more", f.Text, schedule.Counted(f.Gains, "piece"))
		if n, _ := settledCount(f.With, f.Plan); n > 0 {
			text += fmt.Sprintf("; %s until %s %s", schedule.Counted(n, "settled task"), moment(f.With.Settled().Until, a.problem.Kitchen.Zone), plural(n, "moves", "move"))
		}
		lines = append(lines, text)
	}
	return lines
}

// caution says, once for all of them, that what a fix gives is not bound to go where it
// is wanted; "" where there is none.
func (a *whyAnswer) caution() string {
	if !slices.ContainsFunc(a.whys, func(y *whatif.Why) bool { return len(y.Fixes) > 0 }) {
		return ""
	}
	return "When you plan again, what is gained may go to another target that is worth more." + a.calmText()
}

// writeWorth tells what one more of each thing would buy, the most first.
func (a *whyAnswer) writeWorth(w io.Writer) {
	if a.problem.Earlier.Score.PromisedShort+a.problem.Earlier.Score.Short == 0 {
		say(w, a.width, "Nothing is short, so one more of anything buys nothing.")
		return
	}
	say(w, a.width, "What each of these would buy, by itself, over the whole plan. A range is given where the best is not proved.")
	list := slices.Clone(a.worths)
	slices.SortStableFunc(list, func(x, y whatif.Worth) int { return int(y.Money - x.Money) })
	var nothing []string
	for _, f := range list {
		if text := worthText(&f); text != "" {
			item(w, a.width, fmt.Sprintf("%s: %s", f.Text, text))
		} else {
			nothing = append(nothing, f.Text)
		}
	}
	if len(nothing) > 0 {
		item(w, a.width, "nothing: "+strings.Join(nothing, "; "))
	}
}

// worthText says what a change buys; "" for nothing at all.
func worthText(f *whatif.Worth) string {
	found := fmt.Sprintf("%s worth %s", schedule.Counted(f.Pieces, "piece"), money(f.Money))
	switch {
	case f.Least == f.Most && f.Most == 0:
		return ""
	case f.Least == f.Most:
		return found
	case f.Money <= 0:
		return fmt.Sprintf("nothing found; %s at the most", money(f.Most))
	case f.Least == f.Money:
		return fmt.Sprintf("%s, perhaps up to %s", found, money(f.Most))
	}
	return fmt.Sprintf("%s; between the best plans, from %s to %s", found, money(f.Least), money(f.Most))
}

// json tells the answer to a program. Keys are only ever added.
func (a *whyAnswer) json(w io.Writer) error {
	type fixJSON struct {
		Change string `json:"change"`
		More   int    `json:"more"`
		Moved  int    `json:"settled_moved"`
	}
	type wantJSON struct {
		Target  string    `json:"target"`
		By      string    `json:"by"`
		Want    int       `json:"want"`
		Cheese  string    `json:"cheese"`
		Short   int       `json:"short"`
		Because string    `json:"because"`
		Proved  bool      `json:"proved"`
		Fixes   []fixJSON `json:"fixes"`
	}
	type worthJSON struct {
		Change string          `json:"change"`
		Pieces int             `json:"pieces"`
		Money  resources.Money `json:"money"`
		Least  resources.Money `json:"least"`
		Most   resources.Money `json:"most"`
	}
	out := struct {
		Schema  string      `json:"schema"`
		Short   []wantJSON  `json:"short"`
		OneMore []worthJSON `json:"one_more"`
	}{Schema: "ripeby/why/1", Short: []wantJSON{}, OneMore: []worthJSON{}}
	for i, why := range a.whys {
		x := a.wants[i]
		j := wantJSON{Target: x.target, By: x.by.In(a.problem.Kitchen.Zone).Format(time.RFC3339), Want: x.want, Cheese: x.cheese,
			Short: shortOf(a.problem.Earlier, x), Because: why.Because, Proved: why.Proved, Fixes: []fixJSON{}}
		for _, f := range why.Fixes {
			moved, _ := settledCount(f.With, f.Plan)
			j.Fixes = append(j.Fixes, fixJSON{f.Text, f.Gains, moved})
		}
		out.Short = append(out.Short, j)
	}
	for _, f := range a.worths {
		out.OneMore = append(out.OneMore, worthJSON{f.Text, f.Pieces, f.Money, f.Least, f.Most})
	}
	return printJSON(w, out)
}
