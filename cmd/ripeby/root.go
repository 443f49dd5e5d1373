package main

import (
	"fmt"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"ripeby/calendar/layout"
)

// rootCommand is ripeby with all its subcommands.
func (p *program) rootCommand() *cobra.Command {
	root := &cobra.Command{
		Use:   "ripeby",
		Short: "Plans cheese making backward from the day the cheese must be ripe",
		Long: `ripeby works backward from the day a cheese must be ripe. It fits batches to
your pots, moulds, presses, fridge shelves, milk and hours, and writes the plan,
a calendar and a week table.

` + settingsHelp + "\n\n" + exitTable,
		Example: `  ripeby plan --demo             plan the example kitchen
  ripeby new my-kitchen          begin a kitchen folder of your own
  ripeby keys kitchen            see what may be written into kitchen.yaml
  ripeby check -C my-kitchen     see what ripeby understood
  ripeby plan -C my-kitchen      make the plan
  ripeby week -C my-kitchen      show this week's table
  ripeby record -C my-kitchen    list what was said of what happened, or say it
  ripeby list -C my-kitchen …    say what to take along to a target
  ripeby bring -C my-kitchen     say by your own sales how many to bring
  ripeby chance -C my-kitchen    say how often each want is met when waits vary
  ripeby trace -C my-kitchen …   say what was in a batch, and where it went
  ripeby sheet -C my-kitchen …   write the batch sheet of a batch, to print and write on
  ripeby labels -C my-kitchen …  make the labels of a batch, to print from a browser
  ripeby orders FILE.csv         take orders from a spreadsheet
  ripeby cold -C my-kitchen      show what stands where in the cold`,
		Version:       version(),
		Args:          p.noArguments,
		SilenceErrors: true,
		// as many letters may be wrong in a command for it to be told as the nearest
		SuggestionsMinimumDistance: 2,
		SilenceUsage:               true,
		RunE:                       func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.SetIn(p.in)
	root.SetOut(p.out)
	root.SetErr(p.err)
	root.SetVersionTemplate("ripeby {{.Version}}\n")
	root.SetFlagErrorFunc(badOption)
	root.SetHelpCommand(p.helpCommand(root))
	root.AddCommand(p.planCommand(), p.recordCommand(), p.traceCommand(), p.learnCommand(), p.labelsCommand(), p.sheetCommand(), p.weekCommand(), p.listCommand(), p.bringCommand(), p.chanceCommand(), p.slipCommand(), p.fitsCommand(), p.ordersCommand(), p.whyCommand(), p.coldCommand(), p.serveCommand(), p.checkCommand(), p.newCommand(), p.mixCommand(), p.keysCommand(), p.versionCommand())
	return root
}

// begin marks a subcommand as begun: its command line was understood. An option
// that is given but empty is a slip (most often a shell variable that is not set)
// and is not taken for one that is not given.
func (p *program) begin(f func(cmd *cobra.Command, args []string) error) func(*cobra.Command, []string) error {
	return func(cmd *cobra.Command, args []string) error {
		var empty error
		cmd.Flags().Visit(func(flag *pflag.Flag) {
			if flag.Value.String() == "" && empty == nil {
				empty = fmt.Errorf("--%s is empty; leave it out or give it a value", flag.Name)
			}
		})
		if empty != nil {
			return empty
		}
		p.started = true
		return f(cmd, args)
	}
}

// folderFlags are the options of every subcommand that reads a kitchen.
func folderFlags(f *pflag.FlagSet) {
	f.StringP("folder", "C", ".", "read the kitchen folder `DIR`")
}

// outFlag is where the plan is.
func outFlag(f *pflag.FlagSet) {
	f.String("out", "", "keep the plan in `DIR` (default: the folder plan in the kitchen folder)")
}

// demoFlag asks for the example kitchen.
func demoFlag(f *pflag.FlagSet) *bool {
	return f.Bool("demo", false, "take the example kitchen, whose plan is kept in ./"+demoOut)
}

// tableFlags are the options of every subcommand that prints a table.
func tableFlags(f *pflag.FlagSet) {
	f.Int("width", 0, fmt.Sprintf("make tables this many `COLUMNS` wide, at least %d (default: the terminal, else %d)", layout.Narrowest, standardWidth))
	f.String("colour", "auto", "colour tables `WHEN`: auto, always or never")
}
