package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"ripeby/calendar/spreadsheet"
	"ripeby/config"
	"ripeby/config/keys"
)

// keysCommand prints what may be written into a kitchen folder.
func (p *program) keysCommand() *cobra.Command {
	var markdown, csv bool
	cmd := &cobra.Command{
		Use:   "keys [" + strings.Join(keyWords(), "|") + "]",
		Short: "Print every key that a kitchen folder may have",
		Long: `Prints every key that a kitchen folder may have: how its value is written, what
holds where it is left out, an example, and what it means. With a word only those
of one kind of file.`,
		Example: `  ripeby keys kitchen            those of kitchen.yaml
  ripeby keys record             what may be said of what happened
  ripeby keys --markdown         all of them as a page`,
		ValidArgs: keyWords(),
	}
	cmd.Flags().BoolVar(&markdown, "markdown", false, "print a page of tables")
	cmd.Flags().BoolVar(&csv, "csv", false, "print them as CSV, a key a line")
	cmd.MarkFlagsMutuallyExclusive("csv", "markdown")
	// Said here, for cobra's own message would not tell which words there are.
	cmd.Args = func(_ *cobra.Command, args []string) error {
		for _, word := range args {
			if !slices.Contains(keyWords(), word) {
				return fmt.Errorf("there are no keys of %q; write one of %s", word, strings.Join(keyWords(), ", "))
			}
		}
		if len(args) > 1 {
			return fmt.Errorf("one word at most, got %d", len(args))
		}
		return nil
	}
	cmd.RunE = p.begin(func(_ *cobra.Command, args []string) error {
		files := config.Keys()
		if len(args) == 1 {
			files = slices.DeleteFunc(files, func(f keys.File) bool { return f.Word != args[0] })
		}
		if csv {
			return spreadsheet.Write(p.out, keys.Columns(), keys.Table(files))
		}
		if markdown {
			p.out.Write([]byte(keys.Page(files)))
			return nil
		}
		p.out.Write([]byte(keys.Listing(files, p.look(&settings{}).width)))
		return nil
	})
	return cmd
}

// keyWords are the kinds of file by whose name keys are asked for.
func keyWords() []string {
	var words []string
	for _, f := range config.Keys() {
		if !slices.Contains(words, f.Word) {
			words = append(words, f.Word)
		}
	}
	return words
}
