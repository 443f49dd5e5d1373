package main

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"ripeby/config"
	"ripeby/config/fault"
	"ripeby/config/recordfile"
	"ripeby/schedule"
	"ripeby/schedule/record/trace"
)

func (p *program) traceCommand() *cobra.Command {
	var csv, json bool
	cmd := &cobra.Command{
		Use:   "trace LOT|ID|DATE|MILK|PACKET|TARGET|BUSINESS…",
		Short: "Say what was in a batch, and where it went",
		Long: `Answers from the record and from what was kept of each batch (record/batches),
whatever became of the plan, of recipes and of names since:

  of a batch, by its lot or id: its milk and the supplier's lot, the packets it had of,
  when each stage was planned and when it was, who did it, what left for whom, what is
  left and where it stands, the balance in pieces and by weight, the five batches made
  just before and after, and every entry about it, struck ones marked;
  of a day: what was collected, opened, made and left on it;
  of a milk supply, or of a supplier's lot: the collections, what was made of each, and
  where all of that went; with a day after it only that one;
  of what is in a packet, such as rennet, or of a packet's lot: which batches had of it,
  and where all of that went; with a day after it only what was open then;
  of a target or a business: which lots it had; with a day after it only that day's.

A packet that was opened went into all that was made from then on, until the next of
its kind was opened, unless somebody said of a batch which packet it was.

What nobody said is assumed to have gone as planned, and is marked so.

Nothing is written or changed.

Exit codes:
  0  it is known, and told
  1  anything else, such as a file that cannot be read
  2  the folder or the command line is wrong, or nothing is known of it`,
		Example: `  ripeby trace AB-270312-1 -C my-kitchen
  ripeby trace 2027-03-12
  ripeby trace "Hill Farm cow" 2027-03-12
  ripeby trace R-55
  ripeby trace "Saturday stall" --csv > stall.csv`,
		ValidArgsFunction: p.completeTrace,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return fmt.Errorf("%s wants a lot, an id, a day, a milk supply, a packet, a target or a business; such as: ripeby trace AB-270312-1", cmd.CommandPath())
			}
			return nil
		},
	}
	f := cmd.Flags()
	folderFlags(f)
	f.BoolVar(&csv, "csv", false, "print the answer as CSV, for a spreadsheet")
	f.BoolVar(&json, "json", false, "print the answer as JSON and nothing else")
	f.Int("width", 0, fmt.Sprintf("make lines this many `COLUMNS` wide (default: the terminal, else %d)", standardWidth))
	cmd.MarkFlagsMutuallyExclusive("csv", "json")
	cmd.RunE = p.begin(func(cmd *cobra.Command, args []string) error {
		s, err := p.settings(cmd.Flags(), false)
		if err != nil {
			return err
		}
		return p.trace(s, args, csv, json)
	})
	return cmd
}

// trace is ripeby trace.
func (p *program) trace(s *settings, words []string, csv, json bool) error {
	known, err := p.archive(s.folder)
	if err != nil {
		return err
	}
	answers, err := known.Ask(words)
	var unknown *trace.Unknown
	if errors.As(err, &unknown) {
		return notKnown(unknown, known.Batches(), s.folder)
	}
	if err != nil {
		return other("%w", err)
	}
	t := traced{p: p, known: known, zone: known.Zone(), width: p.look(s).width}
	switch {
	case csv:
		return t.csv(answers)
	case json:
		return t.json(answers)
	}
	t.write(answers)
	return nil
}

// notKnown says that a word means nothing, and what might have been meant.
func notKnown(u *trace.Unknown, batches int, folder string) error {
	text := fmt.Sprintf("there is no batch, day, milk, packet, target or business %q in the record", fault.Clip(u.Word))
	if near := fault.Nearest(u.Word, u.Among); near != "" {
		return wrong("%s; did you mean %q?", text, near)
	}
	if batches == 0 {
		return wrong("%s: nothing was kept of any batch yet, and nothing said; batches are kept once they have begun, with: ripeby plan%s", text, kitchen{folder: folder}.as())
	}
	last := u.Among[:min(len(u.Among), 5)]
	return wrong("%s; what is known begins with %s", text, schedule.Listed(last))
}

// archive reads the record and what was kept of batches. What cannot be read of either is told,
// and the rest is answered from; only where nothing at all can be had is that an error.
func (p *program) archive(folder string) (*trace.Archive, error) { return p.archiveWith(folder, nil) }

// archiveWith is [program.archive] with the batches of a plan, too, of which nothing was kept yet; nil for none.
func (p *program) archiveWith(folder string, plan *schedule.Plan) (*trace.Archive, error) {
	done, err := recordfile.Shared(folder)
	if err != nil {
		return nil, other("%w", err)
	}
	defer done()
	r, err := config.LoadRecord(folder)
	if r == nil {
		return nil, other("%w", err)
	}
	kept, bad := batchFolder{folder}.all()
	if err != nil {
		if len(kept)+len(bad)+len(r.Book.All()) == 0 {
			_, err := loadRecord(folder)
			return nil, err
		}
		p.say("mind that the answer may lack what cannot be read:\n" + err.Error())
	}
	p.mindFaults(r.Cut)
	for _, b := range bad {
		p.say("mind that " + b.Error())
	}
	kept = append(kept, notKept(plan, kept)...)
	zone := r.Zone
	if err != nil && len(kept) > 0 { // kitchen.yaml may be gone
		if z, failed := time.LoadLocation(kept[0].TimeZone); failed == nil {
			zone = z
		}
	}
	return trace.New(kept, r.Book, zone), nil
}

// completeTrace completes what can be asked for, the batches made last first.
func (p *program) completeTrace(cmd *cobra.Command, args []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
	s, err := p.settings(cmd.Flags(), false)
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	r, err := config.LoadRecord(s.folder)
	if r == nil || err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	kept, _ := batchFolder{s.folder}.all()
	known := trace.New(kept, r.Book, r.Zone)
	var words []cobra.Completion
	for _, w := range append(known.Names(), known.Others()...) {
		if strings.HasPrefix(w, begun) {
			words = append(words, w)
		}
	}
	return words, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveKeepOrder
}
