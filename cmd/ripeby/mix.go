package main

import (
	"fmt"
	"math/big"
	"strings"

	"github.com/spf13/cobra"

	"ripeby/config/fault"
	"ripeby/resources"
)

// mixHelp is the long help of ripeby mix.
const mixHelp = `Answers one question that comes up at the sink, in a line, and says how it was
rounded and what its per cents are of. No kitchen folder is read; nothing is written.

  brine     18 % 10 L          salt for a brine of so many per cent in so much water
  strength  800 g 4 L          how strong so much salt in so much water is
  raise     18 % 20 % 10 kg    salt that brings so much brine from one to the other
  baume     18                 how heavy so many degrees Baumé are
  salometer 20                 how strong so many degrees of a salometer are
  vat       2 L                how much brine there should be for so much cheese
  salt      1.5 % 2.4 kg       salt on so much curd, or taken up by so much cheese
  drying    80 g 12 %          what a cheese weighs before, to have so much after so much loss
  blend     40 % 0.05 % 3.5 % 1000 kg   so much of a third from a first and a second
  fatten    4 % 500 kg 35 % 10 %        what to add of another: milk, its amount, cream, want
  dose      45 IMCU 10 L 150 IMCU/mL    a dose per litre for so much milk, of a strength
  calcium   12 L               calcium chloride: the most that one country allows

Per cents of brine are by weight of the brine (w/w). Water is taken as 1 kg a litre,
milk as 1.03 kg. How much goes in is your own to say; ripeby only reckons.

` + exitTable

func (p *program) mixCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "mix QUESTION AMOUNTS",
		Short: "Reckon a brine, a blend or a dose by itself",
		Long:  mixHelp,
		Example: `  ripeby mix brine 18 % 10 L
  ripeby mix fatten 4 % 500 kg 35 % 10 %
  ripeby mix dose 45 IMCU 10 L 150 IMCU/mL`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return fmt.Errorf("%s wants a question; such as: ripeby mix brine 18 %% 10 L", cmd.CommandPath())
			}
			return nil
		},
		ValidArgsFunction: func(_ *cobra.Command, args []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
			var names []cobra.Completion
			for _, m := range mixes {
				if len(args) == 0 && strings.HasPrefix(m.name, begun) {
					names = append(names, m.name)
				}
			}
			return names, cobra.ShellCompDirectiveNoFileComp
		},
	}
	tableFlags(cmd.Flags())
	cmd.RunE = p.begin(func(cmd *cobra.Command, args []string) error {
		s, err := p.settings(cmd.Flags(), false)
		if err != nil {
			return err
		}
		text, err := mixed(args)
		if err != nil {
			return err
		}
		for _, line := range text {
			say(p.out, p.look(s).width, line)
		}
		return nil
	})
	return cmd
}

// mixed answers a question by its words.
func mixed(args []string) ([]string, error) {
	var names []string
	for _, m := range mixes {
		if names = append(names, m.name); m.name != args[0] {
			continue
		}
		words := amountWords(args[1:])
		such := fmt.Sprintf("such as: ripeby mix %s %s", m.name, m.example)
		if len(words) != len(m.wants) {
			return nil, wrong("%s wants %s, got %d of these; %s", m.name, m.wanted(), len(words), such)
		}
		var given []*big.Rat
		for i, word := range words {
			size, err := m.wants[i].read(word)
			if err != nil {
				return nil, wrong("%s: %w; %s", m.name, err, such)
			}
			given = append(given, size)
		}
		text, err := m.answer(given, words)
		if err != nil {
			return nil, wrong("%s: %w", m.name, err)
		}
		return text, nil
	}
	if near := fault.Nearest(args[0], names); near != "" {
		return nil, wrong("there is no question %q; did you mean %q?", fault.Clip(args[0]), near)
	}
	return nil, wrong("there is no question %q; they are %s", fault.Clip(args[0]), strings.Join(names, ", "))
}

// wanted lists what a question wants.
func (m *mix) wanted() string {
	var words []string
	for _, w := range m.wants {
		words = append(words, w.what)
	}
	return strings.Join(words, ", then ")
}

// amountWords joins numbers and their units, which a shell has torn apart: "18", "%", "10", "L" are two amounts.
func amountWords(args []string) (words []string) {
	for _, part := range strings.Fields(strings.Join(args, " ")) {
		if part[0] >= '0' && part[0] <= '9' || len(words) == 0 {
			words = append(words, part)
		} else {
			words[len(words)-1] += " " + part
		}
	}
	return words
}

// mixWant is what a question wants, and how it is read: in per cent, grams, litres or degrees.
type mixWant struct {
	what string
	read func(string) (*big.Rat, error)
}

// percentOf reads a share of something, from 0 on and below 100.
func percentOf(what string) mixWant {
	return mixWant{"per cent of " + what, func(text string) (*big.Rat, error) {
		number, ok := strings.CutSuffix(strings.TrimSpace(text), "%")
		if number = strings.TrimSpace(number); ok && strings.Trim(number, "0.") == "" && strings.ContainsRune(number, '0') {
			return new(big.Rat), nil // an amount is more than 0, and skimmed milk has 0 %
		}
		a, err := resources.ParseAmount(text)
		switch {
		case err != nil:
			return nil, err
		case a.Unit != resources.Percent:
			return nil, fmt.Errorf("%s is written in %%: got %q", what, fault.Clip(text))
		case a.Rat().Cmp(big.NewRat(100, 1)) >= 0:
			return nil, fmt.Errorf("%s is below 100 %%: got %q", what, fault.Clip(text))
		}
		return a.Rat(), nil
	}}
}

// weightOf reads a weight in grams; of what is measured, where a litre weighs so many grams, 0 for a weight alone.
func weightOf(what string, litre int64) mixWant {
	return mixWant{"the amount of " + what, func(text string) (*big.Rat, error) {
		a, err := resources.ParseAmount(text)
		if err != nil {
			return nil, err
		}
		if grams, ok := resources.InUnit(a.Rat(), a.Unit, "g"); ok {
			return grams, nil
		}
		if litres, ok := resources.InUnit(a.Rat(), a.Unit, "L"); ok && litre > 0 {
			return litres.Mul(litres, big.NewRat(litre, 1)), nil
		}
		return nil, fmt.Errorf("%s is weighed: got %q", what, fault.Clip(text))
	}}
}

// litresOf reads a volume in litres.
func litresOf(what string) mixWant {
	return mixWant{"the litres of " + what, func(text string) (*big.Rat, error) {
		a, err := resources.ParseAmount(text)
		if err != nil {
			return nil, err
		}
		litres, ok := resources.InUnit(a.Rat(), a.Unit, "L")
		if !ok {
			return nil, fmt.Errorf("%s is measured in L or mL: got %q", what, fault.Clip(text))
		}
		return litres, nil
	}}
}

// degreesUpTo reads degrees of a scale.
func degreesUpTo(most int64) mixWant {
	return mixWant{"degrees", func(text string) (*big.Rat, error) {
		a, err := resources.ParseAmount(text + " g")
		if err != nil || a.Rat().Cmp(big.NewRat(most, 1)) > 0 {
			return nil, fmt.Errorf("degrees are a number above 0 and at most %d: got %q", most, fault.Clip(text))
		}
		return a.Rat(), nil
	}}
}

// asWritten takes a text that the answer itself reads.
func asWritten(what string) mixWant {
	return mixWant{what, func(string) (*big.Rat, error) { return nil, nil }}
}
