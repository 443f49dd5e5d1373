package main

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"ripeby/config"
	"ripeby/config/orders"
	"ripeby/resources"
	"ripeby/schedule"
)

// ordersOptions are the options of ripeby orders.
type ordersOptions struct {
	file string // "-" for standard input
	from string
	dry  bool
}

// ordersHelp is the long help of ripeby orders.
var ordersHelp = fmt.Sprintf(`Takes orders from a spreadsheet, saved as CSV in UTF-8, and writes them into
targets.yaml as promises, everything else in it left as it is. The next
"ripeby plan" plans them.

The first line names the columns, in any order: date, who, cheese, pieces and price,
of which price may be left out. A comma, a semicolon or a tab stands between them.
A date is written 2027-03-27, which means 12:00, or 2027-03-27 11:00; pieces are a
whole number; a price has a decimal point or comma, and is 1 where none is given.

Each line is an order, or is refused with its number, what is wrong with it and how
to write it. Good lines are written though others are refused. Orders of one name
for one moment become one target of that name; where the name is taken the date is
put behind it. An order that is there already is refused, so the same file read
twice orders nothing twice. A file has at most %d lines with an order, and %d bytes.

Exit codes:
  0  every line is an order, and all are written
  1  anything else, such as a file that cannot be written
  2  a line was refused, and the others are written; or the folder, the file as a
     whole or the command line is wrong, and nothing is`, orders.MaxLines, orders.MaxBytes)

func (p *program) ordersCommand() *cobra.Command {
	var opt ordersOptions
	cmd := &cobra.Command{
		Use:   "orders FILE.csv",
		Short: "Take orders from a spreadsheet into targets.yaml",
		Long:  ordersHelp,
		Example: `  ripeby orders orders.csv -C my-kitchen
  ripeby orders orders.csv --dry-run
  ripeby orders - < orders.csv`,
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			if len(args) > 0 {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return []string{"csv"}, cobra.ShellCompDirectiveFilterFileExt
		},
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 || args[0] == "" {
				return fmt.Errorf("%s takes one file, or - for standard input; such as: %s orders.csv", cmd.CommandPath(), cmd.CommandPath())
			}
			return nil
		},
	}
	f := cmd.Flags()
	folderFlags(f)
	f.StringVar(&opt.from, "from", "", "refuse what leaves before this `MOMENT` (default: now, or the plan's own start when that lies ahead)")
	f.BoolVar(&opt.dry, "dry-run", false, "show what would be written, and write nothing")
	outFlag(f)
	cmd.RunE = p.begin(func(cmd *cobra.Command, args []string) error {
		opt.file = args[0]
		s, err := p.settings(cmd.Flags(), false)
		if err != nil {
			return err
		}
		return p.orders(s, opt)
	})
	return cmd
}

// orders is ripeby orders.
func (p *program) orders(s *settings, opt ordersOptions) error {
	text, name, err := p.ordersText(opt.file)
	if err != nil {
		return err
	}
	plan, err := output{s.out}.earlier()
	if err != nil {
		return err
	}
	k := kitchen{folder: s.folder}
	problem, err := k.load(cmp.Or(opt.from, p.startWith(plan)), p.now())
	if err != nil {
		return err
	}
	file := filepath.Join(s.folder, "targets.yaml")
	old, err := config.ReadRegular(file, config.MaxFileBytes)
	if err != nil {
		return other("%s cannot be read: %w", file, config.WithoutPath(err))
	}
	read, err := orders.Of(text, name, problem, old)
	if err != nil {
		return wrong("nothing was written\n%w", err)
	}
	added, err := config.AddTargets(old, problem, read.Targets)
	if err != nil {
		return wrong("nothing was written\n%w", err)
	}
	if len(read.Targets) > 0 && !opt.dry {
		if err := config.WriteTargets(s.folder, old, added); err != nil {
			return other("the orders were not written: %w", err)
		}
	}
	p.tellOrders(read, problem, opt.dry)
	switch {
	case len(read.Targets) > 0 && opt.dry:
		line(p.out, "")
		line(p.out, "In targets.yaml:")
		_, _ = io.WriteString(p.out, plainLines(strings.Trim(insertedText(old, added), "\r\n"))+"\n")
	case len(read.Targets) > 0:
		line(p.out, "Plan them with: ripeby plan"+k.as())
	}
	return refusedOrders(read, name, opt.dry)
}

// tellOrders lists the targets that orders have become.
func (p *program) tellOrders(read *orders.Read, problem *schedule.Problem, dry bool) {
	n := schedule.Counted(read.Taken, "order")
	switch {
	case read.Taken == 0:
		line(p.out, "There is no order to write.")
		return
	case dry:
		line(p.out, "Nothing is written. This would be: "+n+", promised:")
	default:
		line(p.out, "Written into targets.yaml: "+n+", promised:")
	}
	zone := problem.Kitchen.Zone
	for _, t := range read.Targets {
		var wants []string
		for _, w := range t.Wants {
			wants = append(wants, fmt.Sprintf("%d %s at %s", w.Pieces, w.Cheese, money(w.Price)))
		}
		by, _ := resources.ParseMoment(t.By, zone) // it was read so
		line(p.out, fmt.Sprintf("- %s, %s: %s", t.Name, moment(by, zone), strings.Join(wants, ", ")))
	}
}

// refusedOrders is the failure of lines that are no orders, nil for none.
func refusedOrders(read *orders.Read, name string, dry bool) error {
	if len(read.Refused) == 0 {
		return nil
	}
	rest := "the others were written"
	switch {
	case len(read.Targets) == 0:
		rest = "nothing was written"
	case dry:
		rest = "the others would be written"
	}
	return wrong("not every line of %s is an order; %s\n%w", name, rest, read.Refused)
}

// ordersText reads the file of orders, and gives what it is called in faults.
func (p *program) ordersText(file string) (text []byte, name string, err error) {
	if file == "-" {
		// One byte more than is taken: a file that is too large is told as that.
		text, err = io.ReadAll(io.LimitReader(p.in, orders.MaxBytes+1))
		if err != nil {
			return nil, "", other("standard input cannot be read: %w", err)
		}
		return text, "standard input", nil
	}
	text, err = config.ReadRegular(file, orders.MaxBytes)
	var not *config.NotRegular
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, "", wrong("there is no file %s", file)
	case errors.As(err, &not):
		return nil, "", wrong("%s: %s; name a file, or give - for standard input", file, not.What)
	case err != nil:
		return nil, "", wrong("%s cannot be read: %w", file, config.WithoutPath(err))
	}
	return text, file, nil
}

// insertedText is what one text has more than another in one place, from the beginning of a line
// where it may be taken so.
func insertedText(old, now []byte) string {
	grown, split := len(now)-len(old), 0
	for split < len(old) && old[split] == now[split] {
		split++
	}
	for split > 0 && old[split-1] != '\n' && old[split-1] == now[split+grown-1] {
		split--
	}
	return string(now[split : split+grown])
}
