package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"ripeby/config"
)

// noArguments refuses words that belong to no option.
func (p *program) noArguments(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	if cmd.HasSubCommands() {
		return noCommand(cmd, args[0])
	}
	if !has(cmd, "folder") {
		return fmt.Errorf("%s takes no arguments, got %q", cmd.CommandPath(), args[0])
	}
	return fmt.Errorf("%s takes no arguments, got %q; the kitchen folder is given with -C", cmd.CommandPath(), args[0])
}

// noCommand names the nearest command to one that is not there.
func noCommand(cmd *cobra.Command, name string) error {
	text := fmt.Sprintf("there is no command %q", name)
	if near := cmd.SuggestionsFor(name); len(near) > 0 {
		text += "; the nearest is " + strings.Join(near, " or ")
	}
	return errors.New(text)
}

// helpCommand is ripeby help: as --help, for those who look for it there.
func (p *program) helpCommand(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND]",
		Short: "Say what a command does",
		RunE: func(_ *cobra.Command, args []string) error {
			cmd, rest, err := root.Find(args)
			if err != nil || len(rest) > 0 {
				return noCommand(root, strings.Join(args, " "))
			}
			cmd.InitDefaultHelpFlag() // so that it is listed
			return cmd.Help()
		},
	}
}

// badOption says in plain words what is wrong with an option.
func badOption(cmd *cobra.Command, err error) error {
	var unknown *pflag.NotExistError
	var bare *pflag.ValueRequiredError
	var invalid *pflag.InvalidValueError
	switch {
	case errors.As(err, &unknown):
		return noOption(cmd, unknown)
	case errors.As(err, &bare):
		return fmt.Errorf("--%s needs a value after it", bare.GetFlag().Name)
	case errors.As(err, &invalid):
		want := "true or false"
		switch flag := invalid.GetFlag(); {
		case flag.Name == "width":
			want = fmt.Sprintf("a whole number from 0 to %d", maxWidth)
		case flag.Name == "count":
			want = fmt.Sprintf("a whole number from 1 to %d", config.MaxCount)
		case flag.Value.Type() != "bool":
			want = fmt.Sprintf("a whole number from 0 to %d", int64(maxWork))
		}
		return fmt.Errorf("--%s is %q; want %s", invalid.GetFlag().Name, invalid.GetValue(), want)
	}
	return err
}

// noOption names the nearest option, or the commands that have the option when it
// stands before the command.
func noOption(cmd *cobra.Command, unknown *pflag.NotExistError) error {
	name, written := unknown.GetSpecifiedName(), "--"+unknown.GetSpecifiedName()
	if unknown.GetSpecifiedShortnames() != "" {
		written = "-" + name
	}
	text := "there is no option " + written
	home := ""
	for _, sub := range cmd.Commands() {
		if has(sub, name) && (home == "" || sub.Name() == "plan") {
			home = sub.Name()
		}
	}
	if home != "" {
		return fmt.Errorf("%s without a command; write it after the command, such as: ripeby %s %s", text, home, written)
	}
	if near := nearestOption(cmd, name); near != "" && len(written) > len("-x") {
		text += "; the nearest is --" + near
	}
	return errors.New(text)
}

// has reports whether a command has an option of this name or letter.
func has(cmd *cobra.Command, name string) bool {
	found := false
	cmd.Flags().VisitAll(func(f *pflag.Flag) { found = found || f.Name == name || f.Shorthand == name })
	return found
}

// nearestOption is the option that holds most of the letters in their order, when
// at most two are not in both.
func nearestOption(cmd *cobra.Command, name string) string {
	best, least := "", 3
	cmd.Flags().VisitAll(func(f *pflag.Flag) { // in the order of their names
		if d := len(name) + len(f.Name) - 2*common(name, f.Name); d < least {
			best, least = f.Name, d
		}
	})
	return best
}

// common is how many letters two words have in common in the same order.
func common(a, b string) int {
	row := make([]int, len(b)+1)
	for i := range len(a) {
		last := 0 // the row above, one to the left
		for j := range len(b) {
			above := row[j+1]
			if a[i] == b[j] {
				row[j+1] = last + 1
			} else {
				row[j+1] = max(above, row[j])
			}
			last = above
		}
	}
	return row[len(b)]
}
