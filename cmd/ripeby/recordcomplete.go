package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"ripeby/schedule/record"
)

// completions are what a word of a command line may be: of a key as config/recordfile names
// it, with the batch that was named before.
func (k *recordKitchen) completions(key, batch string) (words []string) {
	switch strings.TrimSuffix(key, "?") {
	case "batch":
		for i := len(k.known.Batches) - 1; i >= 0; i-- { // the newest first
			words = append(words, k.known.Batches[i].Names...)
		}
	case "did", "began", "stage", "not_yet":
		for _, all := range [][]record.KnownBatch{k.known.Batches, k.known.Cheeses} {
			for _, b := range all {
				if !slices.Contains(b.Names, batch) {
					continue
				}
				for i, s := range b.Stages {
					if s.Work && (key != "not_yet" || i > 0 && b.Stages[i-1].Hold) {
						words = append(words, s.Name)
					}
				}
			}
		}
	case "cheese":
		for _, c := range k.known.Cheeses {
			words = append(words, c.Names...)
		}
	case "milk":
		words = k.known.Milk
	case "target":
		words = k.known.Targets
	case "person", "who":
		words = k.known.People
	case "to":
		words = k.known.Businesses
	case "pot":
		words = k.known.Pots
	case "place":
		for _, p := range k.known.Places {
			words = append(words, p.Name)
		}
	case "shelf":
		for _, p := range k.known.Places {
			if p.Name == batch || batch == "" {
				words = append(words, p.Shelves...)
			}
		}
	case "day", "round":
		words = []string{"today", "yesterday"}
	}
	return words
}

// completeWords completes the words of a verb from the folder and the plan in force.
func (p *program) completeWords(v recordVerb) cobra.CompletionFunc {
	return func(cmd *cobra.Command, args []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
		if len(args) >= len(v.words) {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		before := ""
		if n := len(args); n > 0 {
			before = args[n-1]
		}
		return p.completed(cmd, v.words[len(args)], before, begun)
	}
}

// completed gives what begins as somebody has begun; nothing where the folder cannot be
// read: that is said when the command is given.
func (p *program) completed(cmd *cobra.Command, key, before, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
	s, err := p.settings(cmd.Flags(), false)
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	k, err := p.recordKitchen(s)
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var words []cobra.Completion
	for _, w := range k.completions(key, before) {
		if strings.HasPrefix(w, begun) {
			words = append(words, w)
		}
	}
	return words, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveKeepOrder
}

// completeOptions completes what options take by name.
func (p *program) completeOptions(cmd *cobra.Command, v recordVerb) {
	for _, key := range append([]string{"who"}, v.flags...) {
		if !slices.Contains([]string{"who", "pot", "place", "shelf", "batch", "to"}, key) {
			continue
		}
		// it fails only for an option that there is not, or that is completed already
		_ = cmd.RegisterFlagCompletionFunc(key, func(cmd *cobra.Command, _ []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
			return p.completed(cmd, key, "", begun)
		})
	}
}
