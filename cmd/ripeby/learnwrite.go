package main

import (
	"fmt"

	"ripeby/config"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/learn"
)

// writtenLearned is what was changed in one recipe.
type writtenLearned struct {
	file    string
	cheese  string
	changes []string // "set: times 1 -> 1.117"
}

// learnedText is a recipe's file as it is and as it is to be.
type learnedText struct {
	writtenLearned
	old, now []byte
}

// writeLearned writes what was learned into the recipes, all that is otherwise than what stands there or only
// the times or the yield, and says what. Where one cannot be written into none is.
func writeLearned(folder string, problem *schedule.Problem, cheeses []learn.Cheese, only string) (written []writtenLearned, err error) {
	var texts []learnedText
	for i := range cheeses {
		t, any, err := learnedInto(folder, problem, &cheeses[i], only)
		if err != nil {
			return nil, err
		}
		if any {
			texts = append(texts, t)
		}
	}
	for _, t := range texts {
		if err := config.WriteRecipe(folder, t.file, t.old, t.now); err != nil {
			return nil, other("what was learned was not written: %w", err)
		}
		written = append(written, t.writtenLearned)
	}
	return written, nil
}

// learnedInto puts what was learned of one cheese into the text of its recipe; false where all of it stands
// there.
func learnedInto(folder string, problem *schedule.Problem, c *learn.Cheese, only string) (t learnedText, any bool, err error) {
	var learned config.Learned
	t.cheese = c.Name
	for _, h := range c.Holds {
		if only == onlyYield || h.Times == 0 || h.GoesBy && h.Times == h.Written {
			continue
		}
		learned.Times = append(learned.Times, config.LearnedTimes{Stage: h.Stage, Times: h.Times, Temperature: h.At})
		text := fmt.Sprintf("%s: times %s -> %s", h.Stage, resources.FormatFactor(h.Written), resources.FormatFactor(h.Times))
		if !h.GoesBy {
			text = fmt.Sprintf("%s: goes_by {temperature: %s, times: %s}", h.Stage, degrees(h.At), resources.FormatFactor(h.Times))
		}
		t.changes = append(t.changes, text)
	}
	if y := &c.Yield; only != onlyTimes && y.Told() && !y.Same() {
		learned.Yield = &schedule.Yield{Pieces: y.Pieces, From: y.From}
		t.changes = append(t.changes, fmt.Sprintf("yield: %s from %s -> %s from %s", schedule.Counted(y.Written.Pieces, "piece"), litres(y.Written.From), schedule.Counted(y.Pieces, "piece"), litres(y.From)))
	}
	if len(t.changes) == 0 {
		return t, false, nil
	}
	if t.file, t.old, err = config.RecipeText(folder, c.Name); err != nil {
		return t, false, wrong("nothing was written: %w", err)
	}
	if t.now, err = config.SetLearned(t.file, t.old, problem, learned); err != nil {
		return t, false, wrong("nothing was written\n%w", err)
	}
	return t, true, nil
}
