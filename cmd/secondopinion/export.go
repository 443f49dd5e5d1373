package main

import (
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"ripeby/config"
)

func newExport() *cobra.Command {
	from, slots, facts := "", 0, false
	cmd := &cobra.Command{
		Use:   "export KITCHENDIR",
		Short: "write a kitchen folder as values for the general model kitchen.mzn",
		Args:  cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			p, err := config.Load(args[0], config.Options{From: from, Now: time.Now()})
			if err != nil {
				return err
			}
			s, err := newStatement(p, slots)
			var no *refusal
			if errors.As(err, &no) {
				return fmt.Errorf("%s cannot be stated: %w", args[0], no)
			}
			if err != nil {
				return err
			}
			if facts {
				text, err := s.json()
				if err != nil {
					return err
				}
				fmt.Fprintln(cmd.OutOrStdout(), string(text))
				return nil
			}
			fmt.Fprint(cmd.OutOrStdout(), s.dzn())
			return nil
		},
	}
	cmd.Flags().StringVar(&from, "from", "", "planning start; the present when it is left out")
	cmd.Flags().BoolVar(&facts, "json", false, "write the facts for models of any kind, lengths and moments as they were written")
	cmd.Flags().IntVar(&slots, "slots", 0, "at most so many batches of a cheese; 0 for as many as a best plan can need")
	return cmd
}
