package main

import (
	"errors"
	"io/fs"

	"github.com/spf13/cobra"

	"ripeby/config"
	"ripeby/resources"
)

func (p *program) newCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "new DIR",
		Short: "Begin a kitchen folder",
		Long: `Makes the folder DIR with a small kitchen that can be planned as it is: one
person, one pot, one cheese, one target some weeks ahead. Every file says what to
change. The folder record is for what really happens, which "ripeby record" puts
down there. Nothing that is there already is touched.

` + exitTable,
		Example: `  ripeby new my-kitchen
  ripeby check -C my-kitchen`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 1 && args[0] != "" {
				return nil
			}
			return errors.New("ripeby new takes the name of one folder, such as: ripeby new my-kitchen")
		},
		RunE: p.begin(func(_ *cobra.Command, args []string) error { return p.newKitchen(args[0]) }),
	}
}

// newKitchen is ripeby new.
func (p *program) newKitchen(dir string) error {
	now := p.now()
	today := resources.Date{Year: now.Year(), Month: now.Month(), Day: now.Day()}
	if err := config.NewAt(dir, today); err != nil {
		if errors.Is(err, fs.ErrPermission) {
			return &failure{exitOther, err}
		}
		return &failure{exitWrong, err}
	}
	line(p.out, "A kitchen folder is in "+dir+". Change what is in it, and then:")
	line(p.out, "  ripeby check -C "+shellWord(dir))
	line(p.out, "  ripeby plan -C "+shellWord(dir))
	line(p.out, "As you work, say what really happened, by the batch's number in the plan:")
	line(p.out, "  ripeby record did BATCH STAGE -C "+shellWord(dir))
	return nil
}
