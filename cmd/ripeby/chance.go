package main

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"time"

	"github.com/spf13/cobra"

	"ripeby/calendar/spreadsheet"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/chance"
)

// mostTimes is how many times a plan may be counted through.
const mostTimes = 100_000

func (p *program) chanceCommand() *cobra.Command {
	var csv, asJSON bool
	var times int
	var seed uint64
	cmd := &cobra.Command{
		Use:   "chance",
		Short: "Say how often each want is met when waits take as long as they happen to",
		Long: `Counts the plan through many times. A hold that says when it is ready takes its time by
chance, with what the recipe says it varies by; batches are lost as often as the record
says that they were. Who finds a hold not over looks again every two hours, and late work
is done in the next hour that somebody has, with the kit that is really free then.
Nothing is planned anew, and room on shelves is taken to be there.

Of each want it says how often all of it was there in time, what failed it most often,
and which single change would help most: an earlier make, or to come later. That is
tried for the ` + strconv.Itoa(chance.MostHolds) + ` holds that fail wants most often.

The plan is the one that "ripeby plan" has kept. The same seed gives the same answer.
` + chance.NoSafety + `

` + exitTable,
		Example: `  ripeby chance -C my-kitchen
  ripeby chance --times 10000
  ripeby chance --json`,
		Args: p.noArguments,
	}
	f := cmd.Flags()
	folderFlags(f)
	f.IntVar(&times, "times", chance.DefaultTimes, fmt.Sprintf("count the plan through `N` times, at most %d", mostTimes))
	f.Uint64Var(&seed, "seed", chance.DefaultSeed, "draw from this `SEED`")
	f.BoolVar(&csv, "csv", false, "print the answer as CSV, for a spreadsheet")
	f.BoolVar(&asJSON, "json", false, "print the answer as JSON and nothing else")
	outFlag(f)
	f.Int("width", 0, fmt.Sprintf("make lines this many `COLUMNS` wide (default: the terminal, else %d)", standardWidth))
	demo := demoFlag(f)
	cmd.MarkFlagsMutuallyExclusive("csv", "json")
	cmd.RunE = p.begin(func(cmd *cobra.Command, _ []string) error {
		if times < 1 || times > mostTimes {
			return wrong("--times: from 1 to %d, not %d", mostTimes, times)
		}
		s, err := p.settings(cmd.Flags(), *demo)
		if err != nil {
			return err
		}
		problem, plan, err := p.asPlanned(s, *demo)
		if err != nil {
			return err
		}
		opt := chance.Options{Times: times, Seed: seed, Helps: func(*chance.Want) bool { return true }}
		a := chanceAnswer{zone: problem.Kitchen.Zone, width: p.look(s).width}
		if !*demo {
			known, err := p.archive(s.folder)
			if err != nil {
				return err
			}
			a.lost, a.begun = known.Losses()
			opt.LostRate = known.LossRate()
		}
		a.Answer = chance.Of(problem, plan, opt)
		switch {
		case csv:
			return a.csv(p.out)
		case asJSON:
			return a.json(p.out)
		}
		a.write(p.out, plan)
		return nil
	})
	return cmd
}

// chanceAnswer is what ripeby chance tells.
type chanceAnswer struct {
	chance.Answer
	lost, begun int // batches that were, by the record
	zone        *time.Location
	width       int
}

// write tells it to a person.
func (a *chanceAnswer) write(w io.Writer, plan *schedule.Plan) {
	if len(a.Wants) == 0 {
		line(w, "Nothing is wanted by the plan.")
		return
	}
	text := fmt.Sprintf("%s, planned from %s, counted through %d times.", plan.Kitchen, moment(plan.From, a.zone), a.Times)
	if a.Scattered == 0 {
		text += ` No hold of it scatters: to have one counted, say in the recipe when it is ready and by how much it varies ("ripeby keys recipe").`
	}
	if a.lost > 0 {
		were := map[bool]string{true: "was", false: "were"}[a.lost == 1]
		text += fmt.Sprintf(" Of %s %d %s lost by the record, and as large a share is here.", schedule.Counted(a.begun, "batch"), a.lost, were)
	}
	say(w, a.width, text)
	for i := range a.Wants {
		v := &a.Wants[i]
		if i == 0 || a.Wants[i-1].Target != v.Target || a.Wants[i-1].By != v.By {
			line(w, "")
			say(w, a.width, v.Target+", "+moment(v.By, a.zone))
		}
		promised := ""
		if v.Promised {
			promised = " promised"
		}
		text := fmt.Sprintf("%s, %d%s. ", v.Cheese, v.Wanted, promised)
		if v.Short > 0 {
			text += fmt.Sprintf("The plan itself is %d short.", v.Short)
		} else {
			text += v.Sentence(func(m resources.Moment) string { return moment(m, a.zone) })
		}
		item(w, a.width, text)
	}
	line(w, "")
	if a.Untried > 0 {
		say(w, a.width, fmt.Sprintf("What would help was tried for the %d holds that fail wants most often, and not for %d more.", chance.MostHolds, a.Untried))
	}
	say(w, a.width, chance.WordsMean+" "+chance.NoSafety)
}

// share is a share with four decimals, for a table.
func share(f float64) string { return strconv.FormatFloat(f, 'f', 4, 64) }

// chanceColumns are those of the answer as a table. Columns are only ever added, at the end.
var chanceColumns = []string{"target", "by", "cheese", "wanted", "promised", "short", "hits", "times", "share", "low", "high", "word",
	"breaks_batch", "breaks_stage", "breaks_times", "remedy_batch", "remedy_stage", "remedy_was", "remedy_now", "remedy_hits"}

// csv tells the answer to a spreadsheet, a row for each want.
func (a *chanceAnswer) csv(w io.Writer) error {
	at := func(m resources.Moment) string { return m.In(a.zone).Format(time.RFC3339) }
	yes := map[bool]string{true: "yes"}
	var rows [][]string
	for i := range a.Wants {
		v := &a.Wants[i]
		row := []string{v.Target, at(v.By), v.Cheese, strconv.Itoa(v.Wanted), yes[v.Promised], strconv.Itoa(v.Short), strconv.Itoa(v.Hits), strconv.Itoa(v.Times),
			share(v.Share()), share(v.Low), share(v.High), v.Word(), v.Breaks.Batch, v.Breaks.Stage, strconv.Itoa(v.Breaks.Times), "", "", "", "", ""}
		if r := v.Remedy; r != nil {
			copy(row[15:], []string{r.Batch, r.Stage, at(r.Was), at(r.Now), strconv.Itoa(r.Hits)})
		}
		rows = append(rows, row)
	}
	return spreadsheet.Write(w, chanceColumns, rows)
}

// json tells the answer to a program: target, cheese, share, low, high, n, breaks, remedy.
func (a *chanceAnswer) json(w io.Writer) error {
	type breaks struct {
		Batch string `json:"batch"`
		Stage string `json:"stage"`
		Times int    `json:"times"`
		Says  string `json:"says"`
	}
	type remedy struct {
		Batch string  `json:"batch"`
		Stage string  `json:"stage"`
		Was   string  `json:"was"`
		Now   string  `json:"now"`
		Share float64 `json:"share"`
		Low   float64 `json:"low"`
		High  float64 `json:"high"`
	}
	type row struct {
		Target   string  `json:"target"`
		By       string  `json:"by"`
		Cheese   string  `json:"cheese"`
		Wanted   int     `json:"wanted"`
		Promised bool    `json:"promised"`
		Short    int     `json:"short"`
		Share    float64 `json:"share"`
		Low      float64 `json:"low"`
		High     float64 `json:"high"`
		N        int     `json:"n"`
		Word     string  `json:"word"`
		Breaks   *breaks `json:"breaks"`
		Remedy   *remedy `json:"remedy"`
	}
	at := func(m resources.Moment) string { return m.In(a.zone).Format(time.RFC3339) }
	rounded := func(f float64) float64 { return math.Round(f*10_000) / 10_000 }
	out := make([]row, 0, len(a.Wants))
	for i := range a.Wants {
		v := &a.Wants[i]
		r := row{Target: v.Target, By: at(v.By), Cheese: v.Cheese, Wanted: v.Wanted, Promised: v.Promised, Short: v.Short,
			Share: rounded(v.Share()), Low: rounded(v.Low), High: rounded(v.High), N: v.Times, Word: v.Word()}
		if b := &v.Breaks; b.Batch != "" {
			r.Breaks = &breaks{b.Batch, b.Stage, b.Times, b.Says()}
		}
		if m := v.Remedy; m != nil {
			r.Remedy = &remedy{m.Batch, m.Stage, at(m.Was), at(m.Now), rounded(float64(m.Hits) / float64(v.Times)), rounded(m.Low), rounded(m.High)}
		}
		out = append(out, r)
	}
	return printJSON(w, out)
}
