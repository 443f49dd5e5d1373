package config

import (
	"errors"
	"flag"
	"os"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden files anew")

// faultCase changes one thing in the example folder of the contract.
type faultCase struct {
	name, file, old, new string
}

// TestFaultsSayWhatIsWrong holds every rule's text against testdata/faults.golden,
// which is read by people when it changes: one section a rule, headed by its name.
func TestFaultsSayWhatIsWrong(t *testing.T) {
	var b strings.Builder
	seen := map[string]bool{}
	for _, cases := range [][]faultCase{fileCases(), kitchenCases(), recipeCases(), needCases(), measureCases(), stageCases(), targetCases(), begunCases()} {
		for _, c := range cases {
			if seen[c.name] {
				t.Errorf("two cases are named %q", c.name)
			}
			seen[c.name] = true
			files := saltgrass(t)
			edit(t, files, c.file, c.old, c.new)
			p, err := LoadFS(files, Options{From: saltgrassFrom})
			var faults Faults
			if !errors.As(err, &faults) || p != nil {
				t.Errorf("%s: got problem %v and error %v, want faults", c.name, p, err)
				continue
			}
			b.WriteString("<<< " + c.name + "\n" + faults.Error() + "\n")
		}
	}
	golden(t, "testdata/faults.golden", b.String())
}

// golden compares a text with a file, section by section.
func golden(t *testing.T, file, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	gotParts, wantParts := sections(got), sections(string(text))
	for name, want := range wantParts {
		if gotParts[name] != want {
			t.Errorf("%s:\n got %s\nwant %s", name, gotParts[name], want)
		}
	}
	for name := range gotParts {
		if _, ok := wantParts[name]; !ok {
			t.Errorf("%s: not in %s; run the test with -update and read what it wrote", name, file)
		}
	}
}

// sections cuts a golden file at its heads.
func sections(text string) map[string]string {
	parts := map[string]string{}
	for _, part := range strings.Split(text, "<<< ")[1:] {
		name, body, _ := strings.Cut(part, "\n")
		parts[name] = body
	}
	return parts
}

func TestAllFaultsAreListedInOrder(t *testing.T) {
	files := saltgrass(t)
	edit(t, files, "kitchen.yaml", "holds: 10 L", "holds: 10")
	edit(t, files, "kitchen.yaml", "step: 5 min", "step: 7 min")
	edit(t, files, "targets.yaml", "pieces: 24", "pieces: many")
	edit(t, files, "begun.yaml", "litres: 8", "litres: 8 L")
	_, err := LoadFS(files, Options{From: saltgrassFrom})
	var got []string
	for _, line := range strings.Split(err.Error(), "\n") {
		got = append(got, strings.Join(strings.SplitN(line, ":", 4)[:3], ":"))
	}
	same(t, "places", got, []string{"kitchen.yaml:4:9", "kitchen.yaml:18:36", "targets.yaml:5:38", "begun.yaml:2:51"})
	var one Fault
	if !errors.As(err, &one) || one.Line != 4 {
		t.Errorf("errors.As gives %+v, want the first fault", one)
	}
}

func fileCases() []faultCase {
	k := "kitchen.yaml"
	return []faultCase{
		{"an unknown key names its neighbour", k, "timezone:", "timezoen:"},
		{"an unknown key far from all keys lists them", k, "step: 5 min", "colour: red"},
		{"a key without a space after its colon", k, "holds: 10 L", "holds:10 L"},
		{"a key in capitals", k, "pots:", "Pots:"},
		{"a key twice", k, "step: 5 min", "room: 5 °C"},
		{"a key that is a list", k, "step: 5 min", "[step]: 5 min"},
		{"not YAML: a bracket is open", k, "count: 8, size", "count: [8, size"},
		{"not YAML: two colons", k, "name: Saltgrass Lane", "name: Saltgrass: Lane"},
		{"not YAML: a tab", k, "  step: 5 min", "\tstep: 5 min"},
		{"not YAML: a sign", k, "name: Saltgrass Lane", "name: @home"},
		{"two documents", k, "people:", "---\npeople:"},
		{"not UTF-8", k, "room: 20 °C", "room: 20 \xb0C"},
		{"UTF-16", k, "", "\xff\xfek\x00"},
		{"a tag", k, "step: 5 min", "step: !!str 5 min"},
		{"a merge key", k, "  step: 5 min", "  <<: {step: 5 min}"},
		{"an alias of itself", k, "pots:     [", "pots:     &a [*a, "},
		{"an unknown anchor", k, "step: 5 min", "step: *minutes"},
		{"a list instead of keys", k, "", "- kitchen\n"},
		{"an empty kitchen", k, "", "# nothing yet\n"},
		{"an empty recipe", "recipes/ash-button.yaml", "", ""},
		{"a recipe that will not be read", "recipes/brie.yml", "", "name: Brie\n"},
		{"a file of the folder that will not be read", "Targets.YAML", "", "targets: []\n"},
	}
}

func kitchenCases() []faultCase {
	k := "kitchen.yaml"
	return []faultCase{
		{"no frame", k, "kitchen:\n  name: Saltgrass Lane\n  timezone: Europe/Dublin          # IANA name; required\n  step: 5 min                      # planning grid, default 5 min; moments of work fall on it\n  room: 20 °C                      # temperature of the make room, default 21 °C\n", ""},
		{"a room that is listed without dates", k, "room: 20 °C", "room: [17 °C, 20 °C]"},
		{"a room from no date", k, "room: 20 °C", "room: [{is: 17 °C}]"},
		{"a room of no temperature", k, "room: 20 °C", "room: [{from: 2027-01-01}]"},
		{"rooms that do not go by date", k, "room: 20 °C", "room: [{from: 2027-04-15, is: 20 °C}, {from: 2027-01-01, is: 17 °C}]"},
		{"a room that is listed for no date", k, "room: 20 °C", "room: []"},
		{"a room by date in keys", k, "room: 20 °C", "room: {from: 2027-01-01, is: 17 °C}"},
		{"no time zone", k, "timezone: Europe/Dublin", "timezone:"},
		{"an unknown time zone", k, "Europe/Dublin", "Europe/Saltgrass"},
		{"a label too small", k, "\npots:", "\nlabel: {size: 19 x 10 mm}\npots:"},
		{"a label without a unit", k, "\npots:", "\nlabel: {size: 60 x 40}\npots:"},
		{"a label larger than its paper", k, "\npots:", "\nlabel: {size: 220 x 40 mm, sheet: A4}\npots:"},
		{"labels that stand out", k, "\npots:", "\nlabel: {sheet: {columns: 4, left: 7 mm}}\npots:"},
		{"labels on each other", k, "\npots:", "\nlabel: {sheet: {columns: 2, across: 59 mm}}\npots:"},
		{"an unknown paper", k, "\npots:", "\nlabel: {sheet: A9}\npots:"},
		{"an unknown line of a label", k, "\npots:", "\nlabel: {lines: [name, useby]}\npots:"},
		{"a line of a label twice", k, "\npots:", "\nlabel: {lines: [lot, name, lot]}\npots:"},
		{"a label without lines", k, "\npots:", "\nlabel: {lines: []}\npots:"},
		{"a business twice", k, "\npots:", "\nbusinesses: [{name: Corner shop}, {name: Corner shop}]\npots:"},
		{"a business without a name", k, "\npots:", "\nbusinesses: [{address: 2 Quay Row}]\npots:"},
		{"a time zone in small letters", k, "Europe/Dublin", "america/new york"},
		{"the machine's own time zone", k, "Europe/Dublin", "Local"},
		{"a step that does not divide the hour", k, "step: 5 min", "step: 7 min"},
		{"an alarm of a month", k, "step: 5 min ", "alarm: 30 d #"},
		{"an alarm without unit", k, "step: 5 min ", "alarm: 15 #"},
		{"ahead in days", k, "step: 5 min ", "ahead: 84 d #"},
		{"ahead for ever", k, "step: 5 min ", "ahead: 1000 weeks #"},
		{"what nobody speaks of neither waits nor is done", k, "step: 5 min ", "unsaid: wait #"},
		{"a temperature without unit", k, "room: 20 °C", "room: 20"},
		{"hours without days", k, "\"mon-fri 06:00-08:00\"", "\"06:00-08:00\""},
		{"hours with a wrong day", k, "\"mon-fri 06:00-08:00\"", "\"mon-fry 06:00-08:00\""},
		{"hours with a wrong time", k, "\"mon-fri 06:00-08:00\"", "\"mon-fri 6-8\""},
		{"hours that are no list", k, "[\"mon-fri 06:00-07:00\"]", "mon-fri 06:00-07:00"},
		{"a length of time without unit", k, "most_per_day: 6 h", "most_per_day: 6"},
		{"a decimal comma", k, "most_per_day: 6 h", "most_per_day: 1,5 h"},
		{"part of a minute", k, "most_per_day: 6 h", "most_per_day: 0.4 min"},
		{"away on a day that is not", k, "until: 2027-03-14}", "until: 2027-02-30}"},
		{"away until before from", k, "until: 2027-03-14}", "until: 2027-03-10}"},
		{"away as a word", k, "- {from: 2027-03-12, until: 2027-03-14}", "- easter"},
		{"away in an hour that is skipped", k, "until: 2027-03-20 18:00", "until: 2027-03-28 01:30"},
		{"a round without length", k, ", for: 20 min", ""},
		{"a round at 24:00", k, "{at: \"07:00\", for", "{at: \"24:00\", for"},
		{"a pot without unit", k, "holds: 10 L", "holds: 10"},
		{"a pot of nothing", k, "holds: 10 L", "holds: 0 L"},
		{"a pot in an unknown unit", k, "holds: 10 L", "holds: 10 cups"},
		{"a gallon of no size", k, "holds: 10 L", "holds: 2 gal"},
		{"a pot without a name", k, "{name: tall pot, holds", "{holds"},
		{"a count that is no number", k, "count: 16", "count: sixteen"},
		{"a count of 0", k, "count: 16", "count: 0"},
		{"what a station takes without unit", k, "takes: 6 L", "takes: 3"},
		{"a size without unit", k, "size: 40 x 30 x 12 cm", "size: 40 x 30 x 12"},
		{"stacked in an unknown way", k, "clean: 15 min}]", "clean: 15 min, stack: yes}]"},
		{"stacked in a list", k, "clean: 15 min}]", "clean: 15 min, stack: [kind]}]"},
		{"a size of two sides", k, "size: 40 x 30 x 12 cm", "size: 40 x 30 cm"},
		{"two things of one name", k, "name: small ring", "name: hook"},
		{"a place with the name of kit", k, "name: cheese cave", "name: hook"},
		{"a reserved name", k, "name: cheese cave", "name: room"},
		{"a name with a space at its end", k, "name: cheese cave", "name: \"cheese cave \""},
		{"a name on two lines", k, "name: cheese cave", "name: \"cheese\\ncave\""},
		{"two shelves of one name", k, "name: middle", "name: top"},
		{"a place with shelves and boxes", k, "temperature: 4 °C", "temperature: 4 °C\n    boxes: 3"},
		{"a place with neither", k, ", boxes: 12", ""},
		{"milk that is collected on no day", k, "days: [tue, fri]", "days: []"},
		{"milk that stands without unit", k, "most: 40 L,", "most: 40 L, standing: 24,"},
		{"milk of which nothing stands", k, "most: 40 L,", "most: 40 L, standing: 0 L,"},
		{"milk that stands above its most", k, "most: 40 L,", "most: 40 L, standing: 41 L,"},
		{"milk that says no keeps", k, " keeps: 2 d,", ""},
		{"closed in an unknown way", k, "closed: [2027-03-26]", "closed: [26/03/2027]"},
		{"a list of words", k, "[{name: small ring, count: 16, clean: 30 min}]", "[small ring]"},
	}
}

// packLine is the last line of the example recipe.
const packLine = "  - {stage: pack,  hands: {fixed: 10 min, per_piece: 1 min}, at: 2-6 °C, uses: [box]}\n"

func needCases() []faultCase {
	of := func(needs string) (file, old, new string) {
		return "recipes/ash-button.yaml", packLine, packLine + "needs:\n" + needs
	}
	var cases []faultCase
	for _, c := range [][2]string{
		{"a need of a stage that is not there", "  - {what: rennet, stage: mak, per_litre: 4.5 IMCU}\n"},
		{"a need of a stage without work", "  - {what: culture, stage: set, per_litre: 0.1 g}\n"},
		{"a need of nothing", "  - {stage: make, per_litre: 0.1 g}\n"},
		{"a need without amount", "  - {what: salt, stage: drain}\n"},
		{"a need with a misspelt amount", "  - {what: salt, stage: drain, per_liter: 2 g}\n"},
		{"a need of two amounts", "  - {what: salt, stage: drain, per_litre: 2 g, fixed: 5 g}\n"},
		{"a need twice", "  - {what: salt, stage: drain, per_litre: 2 g}\n  - {what: salt, stage: drain, fixed: 5 g}\n"},
		{"a need without a unit", "  - {what: salt, stage: drain, per_litre: 2}\n"},
		{"a need in a word for its unit", "  - {what: salt, stage: drain, per_litre: 2 grams}\n"},
		{"a need in per cent of litres", "  - {what: salt, stage: drain, per_litre: 2 %}\n"},
		{"a need of more than all curd", "  - {what: salt, stage: drain, per_curd: 101 %}\n"},
		{"a need in grams of curd", "  - {what: salt, stage: drain, per_curd: 2 g}\n"},
		{"a need in a metric spoon of another size", "  - {what: salt, stage: drain, fixed: 1 tsp (AU)}\n"},
		{"a strength of something else", "  - {what: rennet, stage: make, per_litre: 4.5 IMCU, strength: 25 DCU/sachet}\n"},
		{"a strength that is none", "  - {what: rennet, stage: make, per_litre: 4.5 IMCU, strength: 200}\n"},
		{"a need that is a word", "  - rennet\n"},
	} {
		file, old, new := of(c[1])
		cases = append(cases, faultCase{c[0], file, old, new})
	}
	return append(cases,
		faultCase{"a scale that shows a volume", "kitchen.yaml", "step: 5 min", "scale: 1 mL\n  step: 5 min"},
		faultCase{"a scale without a unit", "kitchen.yaml", "step: 5 min", "scale: 0.1\n  step: 5 min"})
}

func measureCases() (cases []faultCase) {
	for _, c := range [][2]string{
		{"a measure of a stage that is not there", "  - {what: pH, stage: drian}\n"},
		{"a measure of a stage without work", "  - {what: room temperature, stage: set, from: 18 °C}\n"},
		{"a measure of nothing", "  - {stage: drain, from: 4.4}\n"},
		{"a measure without a stage", "  - {what: pH, from: 4.4}\n"},
		{"a measure twice", "  - {what: pH, stage: drain, from: 4.4}\n  - {what: ph, stage: drain, to: 4.7}\n"},
		{"a measure the wrong way round", "  - {what: pH, stage: drain, from: 4.7, to: 4.4}\n"},
		{"a measure of two kinds", "  - {what: curd temperature, stage: make, from: 25 °C, to: 27}\n"},
		{"a measure with a decimal comma", "  - {what: pH, stage: drain, from: \"4,4\"}\n"},
		{"a pH with a unit", "  - {what: pH, stage: drain, from: 4.4 pH}\n"},
		{"a measure in a word for its unit", "  - {what: salt, stage: drain, to: 12 grams}\n"},
		{"a limit that is a word", "  - {what: smell, stage: drain, from: fresh}\n"},
		{"what to do outside no limits", "  - {what: smell, stage: drain, else: look again}\n"},
		{"what to do in two lines", "  - {what: pH, stage: drain, to: 4.7, else: \"wait\\nlook\"}\n"},
		{"a measure with a key of another", "  - {what: pH, stage: drain, form: 4.4}\n"},
		{"a measure that is a word", "  - pH\n"},
	} {
		cases = append(cases, faultCase{c[0], "recipes/ash-button.yaml", packLine, packLine + "measures:\n" + c[1]})
	}
	return cases
}

func recipeCases() []faultCase {
	r := "recipes/ash-button.yaml"
	labelled := func(label string) string { return "label: " + label + "\nstages:" }
	return []faultCase{
		{"a wrong check digit", r, "stages:", labelled(`{gtin: "9521234543218"}`)},
		{"a GTIN of 11 digits", r, "stages:", labelled(`{gtin: "95212345432"}`)},
		{"a code too long beside a GTIN", r, "code: AB", "code: ABCDEFGHIJK\nlabel: {gtin: \"9521234543213\"}"},
		{"unknown treatment", r, "stages:", labelled("{milk: pasteurized}")},
		{"an unknown word for the date", r, "stages:", labelled("{date: best-before}")},
		{"a label without weight", r, "stages:", labelled("{weight: 0 g}")},
		{"a recipe without a name", r, "name: Ash button\n", ""},
		{"a recipe of the same name", "recipes/second.yaml", "", strings.Replace(minimalRecipe, "Second", "Ash button", 1)},
		{"a code of the same initials", "recipes/second.yaml", "", strings.Replace(minimalRecipe, "Second", "Amber brook", 1)},
		{"a code that is taken", "recipes/second.yaml", "", "code: AB\n" + minimalRecipe},
		{"a code with a space", r, "code: AB ", "code: A B "},
		{"a name without initials", "recipes/second.yaml", "", strings.Replace(minimalRecipe, "Second", "\"!?\"", 1)},
		{"milk that is not known", r, "milk: Hill Farm cow", "milk: Hill Farm cwo"},
		{"a yield of nothing", r, "pieces: 9, from", "pieces: 0, from"},
		{"a yield without volume", r, "from: 5 L", "from: 5"},
		{"a batch whose most is below least", r, "most: 15 L", "most: 3 L"},
		{"a batch that fits no pot", r, "least: 5 L, most: 15 L", "least: 11 L, most: 15 L"},
		{"a batch that leaves nothing to sell", r, "spare: 1", "spare: 20"},
		{"a batch step that rounds to nothing", r, "step: 1 L", "step: 0.4 mL"},
		{"a batch of far too many sizes", r, "most: 15 L, step: 1 L", "most: 50 L, step: 1 mL"},
		{"a mould that is not known", r, "mould: small ring", "mould: small rign"},
		{"a box that is not known", r, "name: ripening box", "name: carton"},
		{"a misspelt key is not missing too", r, "stages:", "stagse:"},
		{"a box that takes nothing", r, "takes: 8", "takes: 0"},
		{"no keeps", r, "keeps: 6 d ", "#"},
		{"no stages", r, "stages:\n", "stages: []\nbatch2:\n"},
		{"a bare mass", r, "piece: 75 g", "piece: 75"},
	}
}

// minimalRecipe is one that loads beside Ash button.
const minimalRecipe = `name: Second
yield: {pieces: 1, from: 1 L}
batch: {least: 1 L, most: 2 L}
keeps: 1 d
stages: [{stage: make, hands: {fixed: 5 min}, uses: [pot]}]
`

func stageCases() []faultCase {
	r := "recipes/ash-button.yaml"
	return []faultCase{
		{"two stages of one name", r, "stage: set", "stage: make"},
		{"a hold without most", r, ", most: 28 h", ""},
		{"a hold that is no mapping", r, "hold: {least: 18 h, best: 22 h, most: 28 h}", "hold: 24 h"},
		{"a hold of parts of minutes", r, "least: 18 h", "least: 90.5 min"},
		{"most below least", r, "most: 28 h", "most: 17 h"},
		{"best above most", r, "best: 22 h", "best: 29 h"},
		{"best below least", r, "best: 22 h", "best: 17 h"},
		{"ready below least", r, "most: 28 h}, at: room", "most: 28 h, ready: 17 h}, at: room"},
		{"ready above most", r, "most: 28 h}, at: room", "most: 28 h, ready: 29 h}, at: room"},
		{"ready at once", r, "most: 28 h}, at: room", "most: 28 h, ready: 0 h}, at: room"},
		{"goes_by without a temperature", r, "most: 28 h}, at: room", "most: 28 h, goes_by: {times: 1.18}}, at: room"},
		{"goes_by that is a temperature", r, "most: 28 h}, at: room", "most: 28 h, goes_by: 21 °C}, at: room"},
		{"goes_by for a room too cold", r, "most: 28 h}, at: room", "most: 28 h, goes_by: {temperature: 14.9 °C}}, at: room"},
		{"goes_by for a room too warm", r, "most: 28 h}, at: room", "most: 28 h, goes_by: {temperature: 30.5 °C}}, at: room"},
		{"times too few", r, "most: 28 h}, at: room", "most: 28 h, goes_by: {temperature: 21 °C, times: 0.499}}, at: room"},
		{"times too many", r, "most: 28 h}, at: room", "most: 28 h, goes_by: {temperature: 21 °C, times: 2.6}}, at: room"},
		{"times too finely", r, "most: 28 h}, at: room", "most: 28 h, goes_by: {temperature: 21 °C, times: 1.1803}}, at: room"},
		{"times in percent", r, "most: 28 h}, at: room", "most: 28 h, goes_by: {temperature: 21 °C, times: 118 %}}, at: room"},
		{"varies without percent", r, "most: 28 h}, at: room", "most: 28 h, varies: 0.15}, at: room"},
		{"varies too little", r, "most: 28 h}, at: room", "most: 28 h, varies: 0.5 %}, at: room"},
		{"varies too much", r, "most: 28 h}, at: room", "most: 28 h, varies: 61 %}, at: room"},
		{"goes_by of the last hold", r, "{stage: pack,  hands: {fixed: 10 min, per_piece: 1 min}, at: 2-6 °C", "{stage: pack, hold: {least: 1 h, most: 5 d, goes_by: {temperature: 21 °C}}, hands: {fixed: 10 min, per_piece: 1 min}, at: room"},
		{"goes_by of a hold that goes on by itself", r, "per_litre: 2 min}, uses: [pot]}\n  - {stage: set,   hold: {least: 18 h, best: 22 h, most: 28 h}", "per_litre: 2 min}, hold: {least: 10 min, most: 20 min}, uses: [pot]}\n  - {stage: set,   hold: {least: 18 h, best: 22 h, most: 28 h, goes_by: {temperature: 21 °C}}"},
		{"goes_by that leaves no whole step", r, "{least: 18 h, best: 22 h, most: 28 h}", "{least: 22 h, most: 22 h, goes_by: {temperature: 21 °C}}"},
		{"goes_by of next to no time", r, "{least: 18 h, best: 22 h, most: 28 h}", "{least: 0 min, most: 4 min, goes_by: {temperature: 30 °C, times: 2.5}}"},
		{"goes_by in a cold place", r, "hold: {least: 18 h, best: 26 h, most: 36 h}", "hold: {least: 18 h, best: 26 h, most: 36 h, goes_by: {temperature: 21 °C}}"},
		{"a hold without a whole step", r, "{least: 18 h, best: 22 h, most: 28 h}", "{least: 21 min, most: 24 min}"},
		{"work of one length that is bare", r, "hands: {fixed: 40 min, per_litre: 2 min}", "hands: 40"},
		{"work that is a list", r, "hands: {fixed: 40 min, per_litre: 2 min}", "hands: [40 min]"},
		{"work that is bare", r, "fixed: 40 min", "fixed: 40"},
		{"work finer than a thousandth", r, "per_litre: 2 min", "per_litre: 0.0004 min"},
		{"a place that is not known", r, "at: room", "at: kitchen frigde"},
		{"a range without unit", r, "at: 2-6 °C, uses: [mould, box]", "at: 2-6, uses: [mould, box]"},
		{"a range upside down", r, "at: 2-6 °C, uses: [mould, box]", "at: 6-2 °C, uses: [mould, box]"},
		{"a range without a place", r, "at: 2-6 °C, uses: [mould, box]", "at: 6-9 °C, uses: [mould, box]"},
		{"a cold stage without box", r, "at: 2-6 °C, uses: [box]}", "at: 2-6 °C}"},
		{"a box without a size on shelves", "kitchen.yaml", ", size: 40 x 30 x 12 cm", ""},
		{"kit that is not known", r, "uses: [hook]", "uses: [hok]"},
		{"kit named twice", r, "uses: [hook]", "uses: [hook, hook]"},
		{"two pots", r, "uses: [pot]", "uses: [pot, tall pot]"},
		{"a mould by its name", r, "uses: [mould, box]", "uses: [small ring, box]"},
		{"a box by its name", r, "uses: [mould, box]", "uses: [mould, ripening box]"},
		{"a place among the kit", r, "uses: [hook]", "uses: [cheese cave]"},
		{"moulds without a mould", r, "mould: small ring\n", ""},
		{"boxes without a box", r, "box: {name: ripening box, takes: 8}\n", ""},
		{"a box that is not used", r, "uses: [hook]", "uses: [hook], box: {name: ripening box, takes: 4}"},
		{"fresh of what is not used", r, "fresh: [box]", "fresh: [mould]"},
		{"fresh of one of two stations", r, "uses: [board press]", "uses: [board press, hook], fresh: [hook]"},
		{"care by the hour", r, "every: 2 d", "every: 36 h"},
		{"care without a hold", r, "uses: [mould, box]}", "uses: [mould, box], care: {do: turn, every: 1 d}}"},
		{"work by nobody known", r, "hands: {fixed: 40 min, per_litre: 2 min}", "who: [Nel], hands: {fixed: 40 min}"},
		{"no work after a hold: other kit", r, "{stage: pack,  hands: {fixed: 10 min, per_piece: 1 min}, at: 2-6 °C, uses: [box]}", "{stage: rest, at: 2-6 °C, uses: [mould, box]}"},
		{"no work after a hold: fresh", r, "{stage: pack,  hands: {fixed: 10 min, per_piece: 1 min}, at: 2-6 °C, uses: [box]}", "{stage: rest, at: 2-6 °C, uses: [box], fresh: [box]}"},
		{"no work after a hold: another place", r, "{stage: pack,  hands: {fixed: 10 min, per_piece: 1 min}, at: 2-6 °C, uses: [box]}", "{stage: rest, at: cheese cave, uses: [box]}"},
		{"a last hold longer than the cheese keeps", r, "per_piece: 1 min}, at: 2-6 °C, uses: [box]}\n", "per_piece: 1 min}, at: 2-6 °C, uses: [box], hold: {least: 7 d, most: 8 d}}\n"},
		{"a pot where there is none", "kitchen.yaml", "pots:     [{name: tall pot, holds: 10 L, clean: 20 min}]", ""},
	}
}

func targetCases() []faultCase {
	f := "targets.yaml"
	return []faultCase{
		{"a target without by", f, "by: 2027-03-27 07:00 ", "#"},
		{"a target by a date alone", f, "by: 2027-03-27 07:00", "by: 2027-03-27"},
		{"a target in an hour that is skipped", f, "by: 2027-03-27 07:00", "by: 2027-03-28 01:30"},
		{"a target with seconds", f, "by: 2027-03-27 07:00", "by: 2027-03-27T07:00:30Z"},
		{"two targets of one name", f, "name: Saturday stall", "name: Easter market"},
		{"a repetition that takes another's name", f, "name: Easter market", "name: Saturday stall 2027-03-20"},
		{"a cheese that is not known", f, "cheese: Ash button, pieces: 24", "cheese: Ash buton, pieces: 24"},
		{"a price with three decimals", f, "price: 6.50}", "price: 6.505}"},
		{"a price with a sign", f, "price: 6.50}", "price: €6.50}"},
		{"promised as yes", f, "promised: true", "promised: yes"},
		{"two wants alike", f, ", promised: true", ""},
		{"no pieces", f, "pieces: 24", "pieces: 0"},
		{"half a piece", f, "pieces: 24", "pieces: 2.5"},
		{"every in another way", f, "every: week", "every: month"},
		{"except on a day on which it is not held", f, "until: 2027-04-24", "except: [2027-03-20, 2027-04-02]"},
		{"except before the first", f, "until: 2027-04-24", "except: [2027-02-27]"},
		{"except a word", f, "until: 2027-04-24", "except: [easter]"},
		{"except without every", f, "every: week ", "except: [2027-04-03] #"},
		{"until without every", f, "every: week ", "#"},
		{"until before the first", f, "until: 2027-04-24", "until: 2027-03-01"},
		{"until a moment", f, "until: 2027-04-24", "until: 2027-04-24 07:00"},
		{"a feast that is not known", f, "feast: easter", "feast: eastern"},
		{"a feast far from all feasts", f, "feast: easter", "feast: harvest home"},
		{"a feast every week", f, "want: [{cheese: Ash button, pieces: 12}]", "every: week\n    until: 2027-05-01"},
		{"days that are no number", f, "days: -2", "days: two before"},
		{"packed without unit", f, "want: [{cheese: Ash button, pieces: 12}]", "packed: 12"},
	}
}

func begunCases() []faultCase {
	f := "begun.yaml"
	return []faultCase{
		{"litres with a unit", f, "litres: 8,", "litres: 8 L,"},
		{"a misspelt key of a begun batch", f, "litres: 8,", "liters: 8,"},
		{"litres of no piece", f, "litres: 8,", "litres: 0.4,"},
		{"more left than was made", f, "pieces: 13", "pieces: 17"},
		{"a begun batch of an unknown cheese", f, "cheese: Ash button, litres", "cheese: Button, litres"},
		{"a begun stage that is not known", f, "drain: 2027", "drian: 2027"},
		{"a begun stage in the future", f, "drain: 2027-03-13 08:00", "drain: 2027-03-19 08:00"},
		{"begun stages out of order", f, "drain: 2027-03-13 08:00", "drain: 2027-03-12 08:00"},
		{"a begun stage that is left out", f, "make: 2027-03-12 07:30, ", ""},
		{"no begun stages", f, "stages: {make: 2027-03-12 07:30, set: 2027-03-12 08:30, drain: 2027-03-13 08:00}", "stages: {}"},
		{"a begun pot that is not known", f, "pot: tall pot", "pot: tal pot"},
		{"a begun place that is not known", f, "at: kitchen fridge}", "at: fridge}"},
		{"an id twice", f, "\nstock:", "\n  - {id: AB-270312-1, cheese: Ash button, litres: 5, stages: {make: 2027-03-17 07:30}}\nstock:"},
		{"stock of the lot of other stock", f, "at: kitchen fridge, boxes: 2}", "at: kitchen fridge, boxes: 2, lot: X-1}, {cheese: Ash button, pieces: 3, packed: 2027-03-18 19:00, at: kitchen fridge, lot: X-1}"},
		{"stock of nothing", f, "pieces: 12", "pieces: 0"},
		{"stock of the future", f, "packed: 2027-03-18 19:00", "packed: 2027-03-19 19:00"},
		{"stock long ago", f, "packed: 2027-03-18 19:00", "packed: 2020-03-19 19:00"},
		{"stock that is nowhere", f, "at: kitchen fridge, boxes: 2", "at: cellar, boxes: 2"},
		{"ordered milk that is not known", f, "milk: Hill Farm cow", "milk: goat"},
		{"ordered on a day without collection", f, "day: 2027-03-19", "day: 2027-03-20"},
		{"ordered on a closed day", f, "day: 2027-03-19", "day: 2027-03-26"},
		{"ordered twice", f, "litres: 24}", "litres: 24}, {milk: Hill Farm cow, day: 2027-03-19, litres: 2}"},
		{"lost and begun", f, "AB-270305-2", "AB-270312-1"},
		{"lost twice", f, "AB-270305-2", "AB-270305-2, AB-270305-2"},
	}
}
