package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"ripeby/config"
	"ripeby/config/recordfile"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/follows"
)

// sayOptions are the options of everything that is said.
type sayOptions struct {
	at, who, note string
	once          string // the word of a form; never said on a command line
	strikes       []string
	again, dry    bool
}

// recordHelp is the long help of ripeby record.
const recordHelp = `Puts down in the kitchen folder what really happened, one line each, in the folder
record. Nothing in it is ever changed: what was wrong is taken back by its number,
with strike, and stays to be seen. You may write lines there by hand too.

Without a command it lists what was said last; with --csv it prints all of it for a
spreadsheet.

What cannot be is refused, with the line with which it is at odds: a batch, stage,
person or place that there is not, a stage before the one ahead of it, a moment more
than 10 minutes ahead of now. More pieces than were left is asked about, and taken
when you say it again with --again.

Exit codes:
  0  it is written down, and on the disk
  1  anything else: it may not have been written; ripeby record shows whether it is there
  2  the folder or what was said is wrong; nothing was written`

func (p *program) recordCommand() *cobra.Command {
	var csv bool
	var count int
	cmd := &cobra.Command{
		Use:   "record",
		Short: "Say what really happened, or list what was said",
		Long:  recordHelp,
		Example: `  ripeby record did AB-270312-1 drain --pieces 14 --measured "pH 4.5"
  ripeby record not_yet AB-270312-1 drain --look "3 h" --who Nell
  ripeby record came "Hill Farm cow" today "20 L"
  ripeby record strike 43
  ripeby record
  ripeby record --csv > record.csv`,
		Args:                       p.noArguments,
		SuggestionsMinimumDistance: 2,
	}
	pf := cmd.PersistentFlags()
	folderFlags(pf)
	outFlag(pf)
	f := cmd.Flags()
	f.BoolVar(&csv, "csv", false, "print all entries as CSV, one a line")
	f.IntVar(&count, "count", recordListed, "list the last `N` entries")
	cmd.RunE = p.begin(func(cmd *cobra.Command, _ []string) error {
		s, err := p.settings(cmd.Flags(), false)
		if err != nil {
			return err
		}
		return p.listRecord(s, csv, count)
	})
	for i := range recordVerbs {
		cmd.AddCommand(p.verbCommand(recordVerbs[i]))
	}
	return cmd
}

// verbCommand is the command of one way of saying something.
func (p *program) verbCommand(v recordVerb) *cobra.Command {
	var opt sayOptions
	cmd := &cobra.Command{
		Use:               v.usage(),
		Short:             v.short,
		Example:           "  ripeby record " + v.like,
		ValidArgsFunction: p.completeWords(v),
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) < v.least() || len(args) > len(v.words) && !v.endless() {
				return fmt.Errorf("%s is written: ripeby record %s; such as: ripeby record %s", cmd.CommandPath(), v.usage(), v.like)
			}
			return nil
		},
	}
	f := cmd.Flags()
	v.addFlags(f)
	f.StringVar(&opt.at, "at", "", "when it happened, a `MOMENT` such as \"2027-03-13 08:10\", or a time of today (default: now)")
	f.StringVar(&opt.who, "who", "", "the `PERSON` who did it")
	if v.name != "note" {
		f.StringVar(&opt.note, "note", "", "any `TEXT` beside it")
	}
	if v.name != "strike" {
		f.StringArrayVar(&opt.strikes, "strikes", nil, "take back the entry of this `NR` with it; may be given again")
	}
	f.BoolVar(&opt.again, "again", false, "it is so, though it was asked about")
	f.BoolVar(&opt.dry, "dry-run", false, "show what would be written, and write nothing")
	p.completeOptions(cmd, v)
	cmd.RunE = p.begin(func(cmd *cobra.Command, args []string) error {
		s, err := p.settings(cmd.Flags(), false)
		if err != nil {
			return err
		}
		return p.putDown(s, v, args, cmd.Flags(), opt)
	})
	return cmd
}

// putDown is ripeby record with something to say.
func (p *program) putDown(s *settings, v recordVerb, args []string, f *pflag.FlagSet, opt sayOptions) error {
	now := resources.MomentOf(p.now())
	k, err := p.recordKitchen(s)
	if err != nil {
		return err
	}
	e, faults := k.entry(v, args, f, opt, now)
	if len(faults) > 0 {
		return notSaid(faults)
	}
	if opt.dry {
		return p.wouldPutDown(k, e, now, opt.again)
	}
	w, err := recordfile.Begin(recordfile.OnDisk(k.folder), k.zone)
	if err != nil {
		return other("nothing was written: %w", err)
	}
	defer w.End()
	twice := record.Twice(e, w.Book(), &k.known)
	added, err := w.Say(e, &k.known, now, opt.again)
	var wrongSaid config.Faults
	switch {
	case errors.As(err, &wrongSaid):
		return notSaid(wrongSaid)
	case err != nil:
		return other("%w; see with ripeby record%s whether it is there before you say it again", err, kitchen{folder: k.folder}.as())
	}
	p.mindFaults(w.Faults())
	line(p.out, fmt.Sprintf("Written down in %s, line %d:", added.File, added.Line))
	p.listed(record.Entries{&added}, record.NewBook(nil), k.zone)
	if twice != nil {
		line(p.out, fmt.Sprintf("Entry %d, %s:%d, said so first and holds; strike it if this one is right.", twice.Nr, twice.File, twice.Line))
		return nil
	}
	outside, blank := k.measured(&added)
	for _, text := range outside {
		line(p.out, text)
	}
	if len(blank) > 0 {
		line(p.out, k.stillBlank(&added, blank))
	}
	if text := k.means(&added); text != "" {
		line(p.out, text)
	}
	return nil
}

// entry makes an entry of a verb with its words and options.
func (k *recordKitchen) entry(v recordVerb, args []string, f *pflag.FlagSet, opt sayOptions, now resources.Moment) (record.Entry, config.Faults) {
	v.words, v.asked = k.subjectOf(v, args), k.askedOf(args)
	pairs := v.pairs(args, f, func(word string) string { return dayWord(word, now, k.zone) })
	pairs.Text("at", atWord(opt.at, now, k.zone))
	pairs.Text("who", opt.who)
	pairs.Text("note", opt.note)
	pairs.Text("once", opt.once)
	pairs.Each("strikes", opt.strikes)
	e, faults := pairs.Entry(k.zone)
	if len(faults) > 0 {
		return e, faults
	}
	if late := now.Sub(e.At); late > sameMoment || late < -sameMoment {
		e.Written = record.Say(now)
	}
	return e, nil
}

// sameMoment is how far saying and happening may lie apart and be one moment.
const sameMoment resources.Minutes = 2

// wouldPutDown shows what would be written, or why not.
func (p *program) wouldPutDown(k *recordKitchen, e record.Entry, now resources.Moment, again bool) error {
	done, err := recordfile.Shared(k.folder)
	if err != nil {
		return other("%w", err)
	}
	defer done()
	w, err := recordfile.Look(recordfile.OnDisk(k.folder), k.zone)
	if err != nil {
		return other("%w", err)
	}
	if faults := w.Refused(e, &k.known, now, again); len(faults) > 0 {
		return notSaid(faults)
	}
	file, text := w.Draft(e, now)
	line(p.out, "Nothing is written. This would be added to "+file+":")
	line(p.out, text)
	return nil
}

// notSaid refuses what was said, with all that is wrong with it. A fault that stands in no
// line has no file to name.
func notSaid(faults config.Faults) error {
	return wrong("nothing was written\n%w", errors.New(strings.ReplaceAll("\n"+faults.Error(), "\n: ", "\n")[1:]))
}

// mindFaults tells what of the record does not count.
func (p *program) mindFaults(faults config.Faults) {
	for _, f := range faults {
		line(p.err, "ripeby: mind that "+f.Error())
	}
}

// atWord is a moment as somebody says it: nothing for now, or a time of today.
func atWord(word string, now resources.Moment, zone *time.Location) string {
	if word == "" {
		return now.In(zone).Format(time.RFC3339)
	}
	if _, err := resources.ParseClock(word); err == nil {
		return now.DateIn(zone).String() + " " + word
	}
	return word
}

// dayWord is a day as somebody says it.
func dayWord(word string, now resources.Moment, zone *time.Location) string {
	switch today := now.DateIn(zone); word {
	case "today":
		return today.String()
	case "yesterday":
		return today.AddDays(-1).String()
	}
	return word
}

// recordListed is how many entries are listed unless another number is asked for.
const recordListed = 20

// listRecord is ripeby record alone.
func (p *program) listRecord(s *settings, csv bool, count int) error {
	r, err := loadRecord(s.folder)
	if err != nil {
		return err
	}
	if csv {
		return p.recordCSV(r)
	}
	p.mindFaults(r.Cut)
	all := r.Book.All()
	if len(all) == 0 {
		line(p.out, "Nothing was said yet. Say what happened with, for example:")
		line(p.out, "  ripeby record"+kitchen{folder: s.folder}.as()+" did BATCH STAGE")
		return p.unanswered(s, r.Book)
	}
	if more := len(all) - max(count, 1); more > 0 {
		line(p.out, fmt.Sprintf("The last %d of %d entries:", len(all)-more, len(all)))
		all = all[more:]
	}
	p.listed(all, r.Book, r.Zone)
	return p.unanswered(s, r.Book)
}

// unanswered lists what the next plan would take as done as planned without a word, or not to have begun.
func (p *program) unanswered(s *settings, book *record.Book) error {
	plan, err := output{s.out}.earlier()
	if err != nil || plan == nil {
		return err
	}
	problem, err := kitchen{folder: s.folder}.load(p.startWith(plan), p.now())
	if err != nil {
		return err
	}
	problem.Earlier = plan
	list := follows.Of(problem, book).Unanswered
	if len(list) == 0 {
		return nil
	}
	line(p.out, "")
	if list[0].Waits {
		line(p.out, "To be answered; taken not to have begun until somebody says so, and overdue:")
	} else {
		line(p.out, "To be answered; taken as done as planned until somebody says otherwise:")
	}
	for _, u := range list {
		text := fmt.Sprintf("  %s  %s, %s", resources.FormatMoment(u.Start, problem.Kitchen.Zone), u.What(), u.Cheese)
		if u.Who != "" {
			text += ", " + u.Who
		}
		line(p.out, text)
	}
	return nil
}

// listed prints entries, one a line: number, when, who, what, and whether it was struck.
func (p *program) listed(all record.Entries, book interface {
	StruckBy(*record.Entry) *record.Entry
}, zone *time.Location) {
	wide := 0
	for _, e := range all {
		wide = max(wide, len([]rune(e.Who)))
	}
	for _, e := range all {
		number := "-"
		if e.Nr > 0 {
			number = fmt.Sprint(e.Nr)
		}
		text := fmt.Sprintf("%5s  %s  ", number, resources.FormatMoment(e.At, zone))
		if wide > 0 {
			text += fmt.Sprintf("%-*s  ", wide, e.Who)
		}
		text += recordfile.Said(*e, zone)
		if by := book.StruckBy(e); by != nil {
			text += "  (struck"
			if by.Nr > 0 {
				text += fmt.Sprintf(" by %d", by.Nr)
			}
			text += ")"
		}
		line(p.out, text)
	}
}

// loadRecord reads the record of a folder. What is wrong with it is a failure with exit code
// 2, beside what could be read.
func loadRecord(folder string) (*config.Record, error) {
	r, err := config.LoadRecord(folder)
	var faults config.Faults
	switch {
	case errors.As(err, &faults):
		err = fmt.Errorf("%s in the kitchen folder %s; nothing was written\n%w", schedule.Counted(len(faults), "error"), folder, err)
		if slices.ContainsFunc(faults, func(f config.Fault) bool { return f.Missing }) {
			err = fmt.Errorf("%w\nIf %s is not your kitchen folder, give that with -C; ripeby new my-kitchen begins one", err, folder)
		}
		return r, &failure{exitWrong, err}
	case err != nil:
		return nil, other("%w", err)
	}
	return r, nil
}
