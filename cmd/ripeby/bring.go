package main

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"ripeby/calendar/spreadsheet"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/demand"
	"ripeby/schedule/record/trace"
)

func (p *program) bringCommand() *cobra.Command {
	var csv, asJSON bool
	cmd := &cobra.Command{
		Use:   "bring [TARGET]",
		Short: "Say by your own sales how many pieces to bring",
		Long: fmt.Sprintf(`Says of each target that repeats, beside what you want there next, how many pieces your
own market days speak for: the smallest number at which one more would cost more than it
brings, by the chance that it sells. A market day counts where the record says what came
back, or that all was sold; on such a day more may have been asked for, and that is
reckoned with. What is left over and keeps until the next date is worth what it may
bring there.

It wants %d market days, and what a piece costs you to make ("cost" in the recipe); before
that it tells only what was sold. Pieces that were promised count among those sold.
It is a suggestion: what you want stays what you wrote, and no plan goes by it. There is
no weather and no season in it.

The plan is the one that "ripeby plan" has kept.

%s`, demand.FewestDays, exitTable),
		Example: `  ripeby bring -C my-kitchen
  ripeby bring "Saturday stall"
  ripeby bring --csv > bring.csv`,
		ValidArgsFunction: p.completeList,
		Args:              cobra.MaximumNArgs(1),
	}
	f := cmd.Flags()
	folderFlags(f)
	f.BoolVar(&csv, "csv", false, "print the answer as CSV, for a spreadsheet")
	f.BoolVar(&asJSON, "json", false, "print the answer as JSON and nothing else")
	outFlag(f)
	f.Int("width", 0, fmt.Sprintf("make lines this many `COLUMNS` wide (default: the terminal, else %d)", standardWidth))
	cmd.MarkFlagsMutuallyExclusive("csv", "json")
	cmd.RunE = p.begin(func(cmd *cobra.Command, args []string) error {
		s, err := p.settings(cmd.Flags(), false)
		if err != nil {
			return err
		}
		problem, plan, err := p.asPlanned(s, false)
		if err != nil {
			return err
		}
		known, err := p.archive(s.folder)
		if err != nil {
			return err
		}
		all := p.bring(known, problem, plan)
		if len(args) > 0 {
			if !slices.ContainsFunc(plan.Targets, func(t schedule.WantResult) bool {
				return t.Target == args[0] || schedule.Undated(t.Target) == args[0]
			}) {
				return noTarget(plan, args[0])
			}
			all = slices.DeleteFunc(all, func(w demand.Want) bool { return w.Target != args[0] && w.Series != args[0] })
		}
		a := bringAnswer{all: all, zone: problem.Kitchen.Zone, width: p.look(s).width}
		switch {
		case csv:
			return a.csv(p.out)
		case asJSON:
			return a.json(p.out)
		}
		a.write(p.out)
		return nil
	})
	return cmd
}

// bring is what the kitchen's own sales say of the wants of a plan to come.
func (p *program) bring(known *trace.Archive, problem *schedule.Problem, plan *schedule.Plan) []demand.Want {
	return demand.Wants(problem, plan, known.Sales(), resources.MomentOf(p.now()))
}

// sold says beside a plan where the kitchen's own sales speak for another number than what is wanted. Where no
// recipe says what a piece costs the record is not asked.
func (p *program) sold(d delivery, problem *schedule.Problem, plan *schedule.Plan) {
	if d.folder == "" || !slices.ContainsFunc(problem.Recipes, func(r schedule.Recipe) bool { return r.Cost > 0 }) {
		return
	}
	known, err := p.archive(d.folder)
	if err != nil {
		p.say("what was sold cannot be told: " + err.Error())
		return
	}
	all := p.bring(known, problem, plan)
	first := true
	for i := range all {
		b := &all[i]
		if !b.Known || b.Pieces == b.Wanted || (b.AtLeast || b.AllThatKeep) && b.Pieces < b.Wanted {
			continue
		}
		if first {
			line(p.out, "")
			first = false
		}
		least := ""
		if b.AtLeast || b.AllThatKeep {
			least = "at least "
		}
		say(p.out, d.look.width, fmt.Sprintf("By your own sales: of %s %s%d to %s, %s, where %d are wanted (ripeby bring says why).",
			b.Cheese, least, b.Pieces, b.Series, moment(b.By, problem.Kitchen.Zone), b.Wanted))
	}
}

// bringAnswer is what ripeby bring tells.
type bringAnswer struct {
	all   []demand.Want
	zone  *time.Location
	width int
}

// write tells it to a person, target by target.
func (a *bringAnswer) write(w io.Writer) {
	if len(a.all) == 0 {
		say(w, a.width, `Nothing is known yet: the record says of no target that is to come again what came back from it, or that all was sold. After a market, say so: ripeby record back TARGET CHEESE 2.`)
		return
	}
	for i := range a.all {
		b := &a.all[i]
		if i == 0 || a.all[i-1].Target != b.Target {
			if i > 0 {
				line(w, "")
			}
			say(w, a.width, b.Series+", "+moment(b.By, a.zone))
		}
		item(w, a.width, fmt.Sprintf("%s: %d wanted. %s.", b.Cheese, b.Wanted, b.Says()))
	}
	line(w, "")
	say(w, a.width, "A suggestion from your own market days; what you want stays what you wrote.")
}

// bringColumns are those of the answer as a table. Columns are only ever added, at the end.
var bringColumns = []string{"target", "by", "cheese", "wanted", "days", "sold_least", "sold_most", "sold_out_days", "bring", "how"}

// csv tells the answer to a spreadsheet, a row for each cheese of a target.
func (a *bringAnswer) csv(w io.Writer) error {
	var rows [][]string
	for i := range a.all {
		b := &a.all[i]
		bring, how := "", bringHow(b)
		if b.Known {
			bring = strconv.Itoa(b.Pieces)
		}
		rows = append(rows, []string{b.Target, b.By.In(a.zone).Format(time.RFC3339), b.Cheese, strconv.Itoa(b.Wanted), strconv.Itoa(b.Days),
			strconv.Itoa(b.Low), strconv.Itoa(b.High), strconv.Itoa(b.SoldOut), bring, how})
	}
	return spreadsheet.Write(w, bringColumns, rows)
}

// bringHow names what the number is.
func bringHow(b *demand.Want) string {
	switch {
	case b.Days < demand.FewestDays:
		return "too few days"
	case !b.Cost:
		return "no cost"
	case b.AllThatKeep:
		return "all that keep"
	case b.AtLeast:
		return "at least"
	}
	return "so many"
}

// json tells the answer to a program.
func (a *bringAnswer) json(w io.Writer) error {
	type row struct {
		Target   string `json:"target"`
		By       string `json:"by"`
		Cheese   string `json:"cheese"`
		Wanted   int    `json:"wanted"`
		Days     int    `json:"days"`
		Least    int    `json:"sold_least"`
		Most     int    `json:"sold_most"`
		SoldOut  int    `json:"sold_out_days"`
		Bring    *int   `json:"bring"`
		How      string `json:"how"`
		Sentence string `json:"says"`
	}
	out := make([]row, 0, len(a.all))
	for i := range a.all {
		b := &a.all[i]
		r := row{Target: b.Target, By: b.By.In(a.zone).Format(time.RFC3339), Cheese: b.Cheese, Wanted: b.Wanted, Days: b.Days,
			Least: b.Low, Most: b.High, SoldOut: b.SoldOut, How: bringHow(b), Sentence: strings.TrimSpace(b.Says())}
		if b.Known {
			r.Bring = &b.Pieces
		}
		out = append(out, r)
	}
	return printJSON(w, out)
}
