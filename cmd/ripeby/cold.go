package main

import (
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"ripeby/calendar/cold"
	"ripeby/config"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
)

// coldOptions are the options of ripeby cold, as written.
type coldOptions struct {
	at, shelf, box, until, svg string
	count                      int
	csv, readings              bool
	demo                       bool
}

func (p *program) coldCommand() *cobra.Command {
	var opt coldOptions
	cmd := &cobra.Command{
		Use:   "cold",
		Short: "Show what stands where in the cold, and whether more boxes have a place",
		Long: `Shows the cold places of the plan that "ripeby plan" has kept; it is not made again.

Without options it is a table: how full each shelf is at the fullest moment of each
day. With --at it is a map of each shelf at that moment. With --box it is an answer:
whether so many boxes have a place beside all that the plan has there, where, and
how long; without --until, for as long as can be. It asks for space alone, not
whether a cheese may stand there.

With --readings it is how warm each place was over the last seven days, or those up to
--at, by what its thermometer posted ("ripeby serve --addresses" says where to) and
what people measured.

` + exitTable,
		Example: `  ripeby cold -C my-kitchen
  ripeby cold -C my-kitchen --at "2027-03-20 18:00" --svg cold.svg
  ripeby cold -C my-kitchen --at 2027-03-20 --shelf "top"
  ripeby cold -C my-kitchen --box "40 x 30 x 14 cm" --count 2 --at 2027-03-20 --until 2027-03-24
  ripeby cold -C my-kitchen --csv > cold.csv
  ripeby cold -C my-kitchen --readings --shelf "cave" --at 2027-03-20
  ripeby cold -C my-kitchen --csv --at 2027-03-20 > there.csv
  ripeby cold --demo --box crate`,
		Args: p.noArguments,
	}
	f := cmd.Flags()
	folderFlags(f)
	coldFlags(f, &opt)
	outFlag(f)
	tableFlags(f)
	demo := demoFlag(f)
	cmd.RunE = p.begin(func(cmd *cobra.Command, _ []string) error {
		opt.demo = *demo
		s, err := p.settings(cmd.Flags(), opt.demo)
		if err != nil {
			return err
		}
		return p.cold(s, cmd.Flags(), opt)
	})
	return cmd
}

// coldFlags are the options of questions about the cold places.
func coldFlags(f *pflag.FlagSet, opt *coldOptions) {
	f.StringVar(&opt.at, "at", "", "the `MOMENT`, or a day for its beginning (default: now, or the plan's start when now is not in the plan)")
	f.StringVar(&opt.shelf, "shelf", "", "only this shelf, or this cold place, by its `NAME`")
	f.StringVar(&opt.box, "box", "", "ask about boxes of this `SIZE`, or of this kind by its name in the kitchen folder")
	f.IntVar(&opt.count, "count", 1, "ask about this many `BOXES`")
	f.StringVar(&opt.until, "until", "", "ask about a stay until this `MOMENT`, or through this day")
	f.StringVar(&opt.svg, "svg", "", "write the map into this `FILE` too, as a picture")
	f.BoolVar(&opt.csv, "csv", false, "print it as CSV: the table a line for each day and shelf, with --at the map a line for each pile of boxes")
	f.BoolVar(&opt.readings, "readings", false, "say how warm it was over the last seven days")
}

// cold is ripeby cold.
func (p *program) cold(s *settings, flags *pflag.FlagSet, opt coldOptions) error {
	for _, name := range []string{"count", "until"} {
		if flags.Changed(name) && opt.box == "" {
			return wrong("--%s belongs to a question about boxes; give their size or kind with --box", name)
		}
	}
	for _, name := range []string{"box", "svg"} {
		if opt.csv && flags.Changed(name) {
			return wrong("--csv prints the table of all days or, with --at, what stands where, and --%s is about something else; give one of them", name)
		}
	}
	if opt.readings {
		return p.readings(s, flags, opt)
	}
	problem, plan, err := p.asPlanned(s, opt.demo)
	if err != nil {
		return err
	}
	request, err := coldRequestOf(opt, problem, plan, resources.MomentOf(p.now()))
	if err != nil {
		return err
	}
	picture, err := showCold(p.out, problem, plan, request, p.look(s))
	if err != nil || picture == nil {
		return err
	}
	if err := os.WriteFile(opt.svg, picture, 0o644); err != nil {
		return other("%s cannot be written: %w", opt.svg, config.WithoutPath(err))
	}
	line(p.out, "")
	line(p.out, fmt.Sprintf("Written: %s, as of %s", opt.svg, moment(request.at, problem.Kitchen.Zone)))
	return nil
}

// coldRequest is what is to be shown of the cold places.
type coldRequest struct {
	at      resources.Moment
	in      string             // only this shelf or place; "" for all
	mapped  bool               // a map and not the table
	ask     *coldroom.Question // an answer and not the table; nil for none
	kind    string             // of the box that is asked about; "" for a size only
	csv     bool               // the table for a spreadsheet
	picture bool
}

// showCold writes the table, the maps or the answer, and gives the picture when one
// is wanted.
func showCold(w io.Writer, problem *schedule.Problem, plan *schedule.Plan, r coldRequest, l look) ([]byte, error) {
	opt := cold.Options{At: r.at, In: r.in, Width: l.width, Colour: l.colour}
	var err error
	var picture []byte
	switch {
	case r.ask != nil:
		ask := cold.Asked{Question: *r.ask, Kind: r.kind,
			Reply: coldroom.Of(problem, plan).Ask(*r.ask, coldroom.DefaultBudget)}
		if err = cold.Answer(w, problem, plan, ask, opt); err == nil && r.picture {
			picture, err = cold.AnswerPicture(problem, plan, ask, opt)
		}
		return picture, err
	case r.csv && r.mapped:
		err = cold.MapCSV(w, problem, plan, opt)
	case r.csv:
		err = cold.CSV(w, problem, plan, opt)
	case r.mapped:
		err = cold.Map(w, problem, plan, opt)
	default:
		err = cold.Table(w, problem, plan, opt)
	}
	if err == nil && r.picture {
		picture, err = cold.Picture(problem, plan, opt)
	}
	return picture, err
}

// coldRequestOf understands the options by the kitchen and the plan.
func coldRequestOf(opt coldOptions, problem *schedule.Problem, plan *schedule.Plan, now resources.Moment) (coldRequest, error) {
	k := &problem.Kitchen
	r := coldRequest{in: opt.shelf, mapped: opt.at != "", csv: opt.csv, picture: opt.svg != "", at: max(now, plan.From)}
	if names := cold.Names(k); opt.shelf != "" && !slices.Contains(names, opt.shelf) {
		return r, wrong("--shelf is %q; the kitchen folder has %s", opt.shelf, strings.Join(names, ", "))
	}
	if now > lastOf(plan) {
		r.at = plan.From
	}
	if opt.at != "" {
		at, err := resources.ParseStart(opt.at, k.Zone)
		if err != nil {
			return r, wrong("--at: %w", err)
		}
		// The day of the plan's start begins before it; from its start on is meant.
		if _, err := resources.ParseDate(opt.at); err == nil && at.DateIn(k.Zone) == plan.From.DateIn(k.Zone) {
			at = plan.From
		}
		if at < plan.From {
			return r, wrong("--at is %s, before the plan begins (%s): it does not know all that stood there then",
				moment(at, k.Zone), moment(plan.From, k.Zone))
		}
		r.at = at
	}
	if opt.box == "" {
		return r, nil
	}
	return r, r.askAbout(opt, k)
}

// askAbout understands the question about boxes.
func (r *coldRequest) askAbout(opt coldOptions, k *resources.Kitchen) error {
	if opt.count < 1 || opt.count > config.MaxCount {
		return wrong("--count is %d; want a whole number from 1 to %d", opt.count, config.MaxCount)
	}
	r.ask = &coldroom.Question{Count: opt.count, In: opt.shelf, Span: resources.Span{From: r.at, Until: r.at}}
	if opt.until != "" {
		until, err := resources.ParseStart(opt.until, k.Zone)
		if err != nil {
			return wrong("--until: %w", err)
		}
		if day, err := resources.ParseDate(opt.until); err == nil {
			until = day.AddDays(1).Start(k.Zone)
		}
		if until <= r.at {
			return wrong("--until is %s, not after %s", moment(until, k.Zone), moment(r.at, k.Zone))
		}
		r.ask.Span.Until = until
	}
	var kinds []string
	for _, b := range k.Boxes {
		if b.Name == opt.box {
			r.kind, r.ask.Kind, r.ask.Box = b.Name, b.Name, b.Size
			return nil
		}
		kinds = append(kinds, b.Name)
	}
	size, err := resources.ParseSize(opt.box)
	if err != nil && len(kinds) > 0 {
		return wrong("--box: %w; or one of the kitchen's boxes: %s", err, strings.Join(kinds, ", "))
	}
	if err != nil {
		return wrong("--box: %w", err)
	}
	r.ask.Box = size
	return nil
}

// lastOf is the last moment of which a plan tells.
func lastOf(plan *schedule.Plan) resources.Moment {
	last := plan.From
	for _, b := range plan.Batches {
		for _, t := range b.Stages {
			last = max(last, t.Ends)
		}
	}
	for _, s := range plan.Stock {
		last = max(last, s.Ends)
	}
	for _, t := range plan.Targets {
		last = max(last, t.By)
	}
	return last
}
