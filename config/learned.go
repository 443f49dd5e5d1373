package config

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"ripeby/resources"
	"ripeby/schedule"
)

// Learned is what is to be written into a recipe.
type Learned struct {
	Times []LearnedTimes
	Yield *schedule.Yield // nil leaves what the recipe says
}

// LearnedTimes is the factor of one stage's hold. Where the recipe has no goes_by, one is written for a room
// of that temperature.
type LearnedTimes struct {
	Stage       string
	Times       resources.Factor
	Temperature resources.MilliCelsius
}

// RecipeText finds the file of a cheese's recipe in a kitchen folder, by its name below the folder, and gives its text.
func RecipeText(folder, cheese string) (file string, text []byte, err error) {
	l := &loader{fsys: os.DirFS(folder), sure: map[string]bool{}, sound: map[string]bool{}}
	for _, name := range l.recipeFiles() {
		text, ok := l.readFile(name, true)
		if p := (&page{loader: l, file: name}); ok && p.parse(text) && p.root != nil && nameOf(p.root, "name") == cheese {
			return name, text, nil
		}
	}
	return "", nil, fmt.Errorf("the recipe of %s is not there any more%w", clip(cheese), quiet{fs.ErrNotExist})
}

// WriteRecipe puts a new text in place of the old one of a recipe's file, as [WriteTargets] does.
func WriteRecipe(folder, file string, oldText, newText []byte) error {
	path := filepath.Join(folder, filepath.FromSlash(file))
	if err := replace(path, oldText, newText); err != nil {
		return fmt.Errorf("%s is left as it was: %w", path, WithoutPath(err))
	}
	return nil
}

// NoRoomError says that what was learned cannot be written into a recipe without changing what else that says,
// and how to write it by hand.
type NoRoomError struct {
	File    string
	Learned Learned
}

// Error names the file, and shows what belongs where.
func (e *NoRoomError) Error() string {
	var lines []string
	for _, t := range e.Learned.Times {
		lines = append(lines, fmt.Sprintf("stage %q, goes_by: %s", clip(t.Stage), goesByText(schedule.GoesBy{Temperature: t.Temperature, Times: t.Times}, "")))
	}
	if y := e.Learned.Yield; y != nil {
		lines = append(lines, fmt.Sprintf("yield: {pieces: %d, from: %s}", y.Pieces, resources.FormatVolume(y.From)))
	}
	return e.File + ": what was learned cannot be written into this layout without changing what else it says; write it by hand: " + strings.Join(lines, "; ")
}

// SetLearned gives the text of a recipe's file with what was learned in it. A number that stands there is
// replaced, and what is not there is inserted beside what it belongs to; every other byte stays: comments,
// layout, line ends.
//
// Before the new text is given it is read again, and says what the old one said but for what was learned. The
// error is [Faults] where either text would be complained of by [Load], and a [NoRoomError] where the layout
// leaves no place that was found.
func SetLearned(file string, text []byte, kitchen *schedule.Problem, learned Learned) ([]byte, error) {
	root, old, faults := readRecipe(file, text, kitchen)
	if len(faults) > 0 {
		return nil, faults
	}
	want := old
	want.Stages = slices.Clone(old.Stages)
	body := bytes.TrimPrefix(text, []byte("\ufeff"))
	d := draft{text: body}
	var all []splice
	for _, t := range learned.Times {
		i := old.StageNumber(t.Stage)
		h := *old.Stages[i].Hold
		s, ok := d.times(stageNode(root, t.Stage), t)
		if h.GoesBy.Times = t.Times; h.GoesBy.Temperature == 0 {
			h.GoesBy.Temperature = t.Temperature
		}
		want.Stages[i].Hold = &h
		if !ok {
			return nil, &NoRoomError{file, learned}
		}
		all = append(all, s)
	}
	if y := learned.Yield; y != nil {
		want.Yield = *y
		two, ok := d.yield(root, *y)
		if !ok {
			return nil, &NoRoomError{file, learned}
		}
		all = append(all, two...)
	}
	added := slices.Concat(text[:len(text)-len(body)], spliced(body, all))
	_, now, faults := readRecipe(file, added, kitchen)
	if len(faults) > 0 {
		return nil, faults
	}
	if !reflect.DeepEqual(now, want) {
		return nil, &NoRoomError{file, learned}
	}
	return added, nil
}

// readRecipe reads one recipe as [Load] does, for a kitchen that was loaded.
func readRecipe(file string, text []byte, kitchen *schedule.Problem) (*yaml.Node, schedule.Recipe, Faults) {
	l := &loader{sure: map[string]bool{}, sound: map[string]bool{}, problem: schedule.Problem{Kitchen: kitchen.Kitchen}}
	p := &page{loader: l, file: file}
	if len(text) > MaxFileBytes {
		l.unreadable(file, &TooLarge{MaxFileBytes})
	} else if p.parse(text) {
		l.recipe(p)
	}
	if len(l.faults) > 0 || len(l.problem.Recipes) != 1 {
		return nil, schedule.Recipe{}, l.faults.Sorted()
	}
	return p.root, l.problem.Recipes[0], nil
}

// stageNode is the mapping of a stage.
func stageNode(root *yaml.Node, stage string) *yaml.Node {
	for _, n := range valueOf(root, "stages").Content {
		if nameOf(n, "stage") == stage {
			return n
		}
	}
	return &yaml.Node{}
}

// valueOf is what stands under a key; an empty node where nothing does, or an alias, whose text is elsewhere.
func valueOf(n *yaml.Node, key string) *yaml.Node {
	if at := keyAt(n, key); at >= 0 {
		return n.Content[at+1]
	}
	return &yaml.Node{}
}

// splice is a stretch of a text and what comes in its place.
type splice struct {
	from, to int
	text     string
}

// spliced gives the text with every stretch changed; no two of them overlap.
func spliced(text []byte, all []splice) []byte {
	slices.SortFunc(all, func(a, b splice) int { return a.from - b.from })
	var out []byte
	at := 0
	for _, s := range all {
		out = append(append(out, text[at:s.from]...), s.text...)
		at = s.to
	}
	return append(out, text[at:]...)
}

// times is how a factor comes to stand in a stage: in place of the one there, after the temperature that it
// goes with, or with that after ready.
func (d draft) times(stage *yaml.Node, t LearnedTimes) (splice, bool) {
	hold := valueOf(stage, "hold")
	text := resources.FormatFactor(t.Times)
	if at := keyAt(hold, "goes_by"); at >= 0 {
		by := hold.Content[at+1]
		if keyAt(by, "times") >= 0 {
			return d.instead(valueOf(by, "times"), text)
		}
		return d.after(by, "temperature", "times", func(string) string { return text })
	}
	return d.after(hold, "ready", "goes_by", func(quote string) string {
		return goesByText(schedule.GoesBy{Temperature: t.Temperature, Times: t.Times}, quote)
	})
}

// goesByText is how a hold goes by the room, on one line; in JSON with quotation marks.
func goesByText(by schedule.GoesBy, quote string) string {
	return fmt.Sprintf("{%[1]stemperature%[1]s: %[1]s%[2]s%[1]s, %[1]stimes%[1]s: %[3]s}", quote,
		resources.FormatTemperature(by.Temperature), resources.FormatFactor(by.Times))
}

// yield is how a yield comes to stand in place of the one there.
func (d draft) yield(root *yaml.Node, y schedule.Yield) ([]splice, bool) {
	node := valueOf(root, "yield")
	pieces, ok := d.instead(valueOf(node, "pieces"), strconv.Itoa(y.Pieces))
	from, okFrom := d.instead(valueOf(node, "from"), resources.FormatVolume(y.From))
	return []splice{pieces, from}, ok && okFrom
}

// instead puts a text in place of a single value, within the quotation marks that it has.
func (d draft) instead(n *yaml.Node, text string) (splice, bool) {
	from, to, ok := d.written(n)
	if !ok {
		return splice{}, false
	}
	if q := quoteOf(n); q != "" {
		from, to = from+1, to-1
	}
	return splice{from, to, text}, true
}

// after puts a key and its value after another key of a mapping, whose value is a single one: in braces after a
// comma, else on a line of its own that begins as the other's does. What stands on that line stays there.
func (d draft) after(m *yaml.Node, key, add string, value func(quote string) string) (splice, bool) {
	at := keyAt(m, key)
	if at < 0 {
		return splice{}, false
	}
	_, to, ok := d.written(m.Content[at+1])
	if !ok {
		return splice{}, false
	}
	quote := ""
	if doubleQuoted(m.Content[at]) {
		quote = `"`
	}
	pair := quote + add + quote + ": " + value(quote)
	if m.Style&yaml.FlowStyle != 0 {
		return splice{to, to, ", " + pair}, true
	}
	brk := d.lineBreak(to)
	to = lineEnd(d.text, to)
	return splice{to, to, brk + strings.Repeat(" ", m.Content[at].Column-1) + pair}, true
}

// quoteOf is the mark in which a value stands.
func quoteOf(n *yaml.Node) string {
	switch {
	case n.Style&yaml.DoubleQuotedStyle != 0:
		return `"`
	case n.Style&yaml.SingleQuotedStyle != 0:
		return "'"
	}
	return ""
}

// written is where a single value stands, its quotation marks included; false where it is written in a way
// that does not show it as it is: by an alias, in several lines, with escapes, or after a tag.
func (d draft) written(n *yaml.Node) (from, to int, ok bool) {
	if n.Kind != yaml.ScalarNode || n.Line == 0 {
		return 0, 0, false
	}
	raw := quoteOf(n) + n.Value + quoteOf(n)
	from = d.offset(n)
	return from, from + len(raw), strings.HasPrefix(string(d.text[from:]), raw)
}
