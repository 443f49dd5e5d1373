package config

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
	"testing"
	"testing/fstest"

	"ripeby/schedule"
)

const (
	hayCheese  = "Second"
	oddCheese  = `Nan's "blue": #1` // needs quotation marks in every way
	targetFrom = "2027-03-01 06:00"
)

// targetKitchen is a folder with two cheeses and a targets.yaml.
func targetKitchen(t testing.TB, targets string) fstest.MapFS {
	t.Helper()
	files := small()
	edit(t, files, "kitchen.yaml", "", "kitchen: {timezone: Europe/Dublin}\npeople: [{name: Nell, hours: ['daily 06:00-22:00']}]\npots: [{name: tall pot, holds: 10 L}]")
	edit(t, files, "recipes/a.yaml", "", minimalRecipe)
	edit(t, files, "recipes/b.yaml", "", strings.Replace(minimalRecipe, "name: Second", "code: B\nname: 'Nan''s \"blue\": #1'", 1))
	edit(t, files, "targets.yaml", "", targets)
	return files
}

// hayOf is a target of one want.
func hayOf(name string) NewTarget {
	return NewTarget{Name: name, By: "2027-04-10 07:00", Wants: []schedule.Want{{Cheese: hayCheese, Pieces: 2, Price: 100}}}
}

// added inserts a target, and holds the result to the promise: a text in one place,
// and a folder that says one target more. In » stands where it goes in.
func added(t *testing.T, name, marked string, n NewTarget) string {
	t.Helper()
	old := strings.Replace(marked, "»", "", 1)
	p := loaded(t, targetKitchen(t, old), targetFrom)
	text, err := AddTarget([]byte(old), p, n)
	if err != nil {
		t.Errorf("%s: %v", name, err)
		return ""
	}
	now := loaded(t, targetKitchen(t, string(text)), targetFrom)
	want := schedule.Target{Name: n.Name, By: at(t, n.By), Packed: n.Packed, Wants: n.Wants}
	same(t, name+": targets", now.Targets, append(p.Targets, want))
	return string(text)
}

// One line of a target, as the tables write it.
const (
	hayFlow = "{name: Fair, by: 2027-04-10 07:00, want: [{cheese: Second, pieces: 2}]}"
	hayJSON = `{"name": "Fair", "by": "2027-04-10 07:00", "want": [{"cheese": "Second", "pieces": 2}]}`
	aFlow   = "{name: a, by: 2027-04-03 07:00, want: [{cheese: Second, pieces: 1}]}"
	bFlow   = "{name: b, by: 2027-04-03 08:00, want: [{cheese: Second, pieces: 1}]}"
	aBlock  = "- name: a\n    by: 2027-04-03 07:00\n    want: [{cheese: Second, pieces: 1}]\n"
	hayFair = "- name: Fair\n    by: 2027-04-10 07:00\n    want: [{cheese: Second, pieces: 2}]\n"
)

func TestAddTargetFollowsTheLayout(t *testing.T) {
	flat := func(text string) string { return strings.ReplaceAll(text, "\n    ", "\n  ") }
	for _, c := range []struct{ name, old, inserted string }{
		{"an empty file", "»", "targets:\n  " + hayFair},
		{"only comments", "# what\n\n# when\n»", "targets:\n  " + hayFair},
		{"only a comment, no last line end", "# what»", "\ntargets:\n  " + strings.TrimSuffix(hayFair, "\n")},
		{"a document of nothing", "---\n# what\n»...\n", "targets:\n  " + hayFair},
		{"a mark at the beginning", "\ufeff»", "targets:\n  " + hayFair},
		{"a key with nothing", "targets:\n»", "  " + hayFair},
		{"a key with nothing and no line end", "targets:»", "\n  " + strings.TrimSuffix(hayFair, "\n")},
		{"a key with comments", "targets: # all\n  # by is when it leaves\n\n  # and this\n»\n# the end\n", "  " + hayFair},
		{"a key indented", "  targets:\n»", "    " + strings.ReplaceAll(hayFair, "\n    ", "\n      ")},
		{"an empty list", "targets: [»] # none yet\n", hayFlow},
		{"an empty list over lines", "targets: [» # none yet\n  ]\n", hayFlow},
		{"an empty list with an anchor", "targets: &all [» ]\n", hayFlow},
		{"no key at all", "{»}\n", `"targets": [` + hayJSON + "]"},
		{"a key with nothing in braces", "{targets:» }\n", " [" + hayFlow + "]"},
		{"a key in quotation marks with nothing", "{\"targets\":» }\n", " [" + hayJSON + "]"},
		{"a key alone in braces", "{targets»}\n", ": [" + hayFlow + "]"},
		{"a list of lines", "targets:\n  " + aBlock + "»", "  " + hayFair},
		{"a list of lines, not indented", "targets:\n" + flat(aBlock) + "»", flat(hayFair)},
		{"the last line has no end", "targets:\n  " + strings.TrimSuffix(aBlock, "\n") + "»", "\n  " + strings.TrimSuffix(hayFair, "\n")},
		{"carriage returns", strings.ReplaceAll("targets:\n  "+aBlock+"»", "\n", "\r\n"), strings.ReplaceAll("  "+hayFair, "\n", "\r\n")},
		{"carriage returns alone", strings.ReplaceAll("targets:\n  "+aBlock+"»", "\n", "\r"), strings.ReplaceAll("  "+hayFair, "\n", "\r")},
		{"targets with empty lines between", "targets:\n\n  - " + aFlow + "\n\n  # the second\n  - " + bFlow + "\n»\n# the end\n", "\n  - " + hayFlow + "\n"},
		{"one target after an empty line", "targets:\n\n  - " + aFlow + "\n»", "  - " + hayFlow + "\n"},
		{"comments below", "targets:\n  " + aBlock + "    # of a\n\n   # of a too\n»\n  # of the list\n# of the file\n", "  " + hayFair},
		{"comments below, not indented", "targets:\n" + flat(aBlock) + " # of a\n»# of the file\n", flat(hayFair)},
		{"a comment on the last line", "targets:\n  - " + aFlow + " # note\n»  # - " + bFlow + "\n", "  - " + hayFlow + "\n"},
		{"a document with its marks", "%YAML 1.1\n---\ntargets:\n- " + aFlow + "\n»...\n", "- " + hayFlow + "\n"},
		{"far from the dash", "targets:\n  -   name: a\n      by: 2027-04-03 07:00\n»", "  -   name: Fair\n      by: 2027-04-10 07:00\n      want: [{cheese: Second, pieces: 2}]\n"},
		{"below the dash", "targets:\n  - # a\n    name: a\n    by: 2027-04-03 07:00\n»", "  " + hayFair},
		{"keys in quotation marks", "targets:\n  - \"name\": a\n    \"by\": 2027-04-03 07:00\n»", "  - \"name\": \"Fair\"\n    \"by\": \"2027-04-10 07:00\"\n    \"want\": [{\"cheese\": \"Second\", \"pieces\": 2}]\n"},
		{"wants in lines", "targets:\n- name: a\n  by: 2027-04-03 07:00\n  want:\n  - cheese: Second\n    pieces: 1\n»", "- name: Fair\n  by: 2027-04-10 07:00\n  want:\n  - cheese: Second\n    pieces: 2\n"},
		{"a want to a line", "targets:\n- name: a\n  by: 2027-04-03 07:00\n  want:\n    - {cheese: Second, pieces: 1}\n»", "- name: Fair\n  by: 2027-04-10 07:00\n  want:\n    - {cheese: Second, pieces: 2}\n"},
		{"nothing is wanted", "targets:\n- by: 2027-04-03 07:00\n  name: a\n  want: # nothing\n»# end\n", flat(hayFair)},
		{"nothing stands at the end", "targets:\n- by: 2027-04-03 07:00\n  name: a\n  packed:\n»# end\n", flat(hayFair)},
		{"a target over lines in braces", "targets:\n  - {name: a,\nby: 2027-04-03 07:00, # here } and ]\nwant: [{cheese: Second, pieces: 1},\n]}\n»", "  - " + hayFlow + "\n"},
		{"a text over lines", "targets:\n- by: 2027-04-03 07:00\n  want: []\n  name: \"a\n- b: {\"\n»# end\n", flat(hayFair)},
		{"a text over lines with an anchor", "targets:\n- by: 2027-04-03 07:00\n  want: []\n  name: &a 'a\n''- b'\n»# end\n", flat(hayFair)},
		{"a bare text over lines", "targets:\n- by: 2027-04-03 07:00\n  want: []\n  name: a\n   - b\n»# end\n", flat(hayFair)},
		{"a block of text", "targets:\n- by: 2027-04-03 07:00\n  want: []\n  name: |-\n    # a\n»\n# end\n", flat(hayFair)},
		{"letters of two bytes and an anchor", "# é\ntargets:\n- {name: éé, by: &x 2027-04-03 07:00,    want: []}\n»", "- " + hayFlow + "\n"},
		{"a key asked for", "? targets\n: " + aBlock + "»", "  " + hayFair},
		{"brackets on one line", "targets: [" + aFlow + "»] # all\n", ", " + hayFlow},
		{"brackets with a last comma", "targets: [" + aFlow + "», ]\n", ", " + hayFlow},
		{"brackets, a target to a line", "targets: [\n  " + aFlow + ",\n  " + bFlow + "»\n]\n", ",\n  " + hayFlow},
		{"brackets, a target to a line, carriage returns", "targets: [\r\n\t" + aFlow + "»\r\n]", ",\r\n\t" + hayFlow},
		{"brackets, a target to a line, a last comma", "targets: [\n  " + aFlow + "»,\n  ]\n", ",\n  " + hayFlow},
		{"JSON", "{\"targets\": [\n    {\"name\": \"a\", \"by\": \"2027-04-03 07:00\"}»\n  ]\n}\n", ",\n    " + hayJSON},
		{"JSON without targets", "{\"targets\": [»]}", hayJSON},
	} {
		got := added(t, c.name, c.old, hayOf("Fair"))
		if want := strings.Replace(c.old, "»", c.inserted, 1); got != want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, got, want)
		}
	}
}

// A comment at the end of a line of a list in brackets stays with its target.
func TestAddTargetLeavesCommentsInBrackets(t *testing.T) {
	for _, c := range []struct{ name, old, inserted string }{
		{"with a comma", "targets: [\n  " + aFlow + ", # of a »\n]\n", "\n  " + hayFlow + ","},
		{"without", "targets: [\n  " + aFlow + " # of a »\n]\n", "\n  , " + hayFlow},
		{"on the line of the bracket", "targets: [" + aFlow + " #»\n ]\n", "\n  , " + hayFlow},
		{"on the first line, carriage returns", "targets: [" + aFlow + " #»\r\n ]\r\n", "\r\n  , " + hayFlow},
	} {
		got := added(t, c.name, c.old, hayOf("Fair"))
		if want := strings.Replace(c.old, "»", c.inserted, 1); got != want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, got, want)
		}
	}
}

func TestAddTargetWritesEverything(t *testing.T) {
	n := NewTarget{Name: "Fair", By: "2027-04-10 07:00", Packed: 12 * 60, Wants: []schedule.Want{
		{Cheese: oddCheese, Pieces: 24, Price: 650}, {Cheese: oddCheese, Pieces: 6, Price: 5, Promised: true}}}
	got := added(t, "lines", "targets:\n", n)
	const want = `targets:
  - name: Fair
    by: 2027-04-10 07:00
    packed: 12 h
    want:
      - {cheese: "Nan's \"blue\": #1", pieces: 24, price: 6.50}
      - {cheese: "Nan's \"blue\": #1", pieces: 6, price: 0.05, promised: true}
`
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	got = added(t, "brackets", "targets: []", n)
	const flow = `targets: [{name: Fair, by: 2027-04-10 07:00, packed: 12 h, want: [` +
		`{cheese: "Nan's \"blue\": #1", pieces: 24, price: 6.50}, {cheese: "Nan's \"blue\": #1", pieces: 6, price: 0.05, promised: true}]}]`
	if got != flow {
		t.Errorf("got\n%s\nwant\n%s", got, flow)
	}
	n = hayOf("Fair")
	n.Wants = nil
	old := "targets:\n- name: a\n  by: 2027-04-03 07:00\n  want:\n  - {cheese: Second, pieces: 1}\n"
	if got, want := added(t, "nothing wanted", old, n), old+"- name: Fair\n  by: 2027-04-10 07:00\n  want: []\n"; got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestAddTargetQuotesWhatYAMLWouldMisread(t *testing.T) {
	for _, c := range []struct{ name, want string }{
		{"Easter market", "Easter market"}, {"Ó Briain's (late)", "Ó Briain's (late)"}, {"fête 10:30", "fête 10:30"},
		{"a: b", `"a: b"`}, {"a:", `"a:"`}, {"a #1", `"a #1"`}, {"- a", `"- a"`}, {"'a'", `"'a'"`}, {`"a"`, `"\"a\""`}, {`a\b`, `"a\\b"`},
		{"null", `"null"`}, {"~", `"~"`}, {"true", `"true"`}, {"Yes", `"Yes"`}, {"12", `"12"`}, {"1e3", `"1e3"`}, {"0x1f", `"0x1f"`},
		{"2027-04-10", `"2027-04-10"`}, {"a, b", `"a, b"`}, {"[a]", `"[a]"`}, {"{a}", `"{a}"`}, {"*a", `"*a"`}, {"&a", `"&a"`}, {"!a", `"!a"`},
		{"%a", `"%a"`}, {"@a", `"@a"`}, {"`a", "\"`a\""}, {"? a", `"? a"`}, {"|", `"|"`}, {">", `">"`}, {"---", `"---"`}, {"<<", `"<<"`}, {"=", `"="`},
		{"チーズ", "チーズ"}, {"🧀 fair", `"🧀 fair"`}, {"a\u00a0b", `"a\u00A0b"`}, {"a\u200db", `"a\u200Db"`},
	} {
		if got := added(t, c.name, "targets:\n", hayOf(c.name)); !strings.Contains(got, "- name: "+c.want+"\n") {
			t.Errorf("%s in lines: got %q, want name: %s", c.name, got, c.want)
		}
		if got := added(t, c.name, "targets: []\n", hayOf(c.name)); !strings.Contains(got, "[{name: "+c.want+", by:") {
			t.Errorf("%s in brackets: got %q, want name: %s", c.name, got, c.want)
		}
		if got := added(t, c.name, `{"targets": []}`, hayOf(c.name)); !json.Valid([]byte(got)) {
			t.Errorf("%s in JSON: got %q", c.name, got)
		}
	}
}

func TestAddTargetRefuses(t *testing.T) {
	with := func(change func(*NewTarget)) NewTarget {
		n := hayOf("Fair")
		change(&n)
		return n
	}
	list := "targets:\n  " + aBlock + "  - {name: Stall, by: 2027-04-03 07:00, every: week, until: 2027-04-17, want: []}\n"
	for _, c := range []struct {
		name, old string
		t         NewTarget
		want      string
	}{
		{"a name that is taken", list, hayOf("a"), `targets.yaml: target "a", name: this name is taken, see targets.yaml:2; choose another: got "a"`},
		{"the name of a repetition on its date", list, hayOf("Stall 2027-04-10"), `targets.yaml: target "Stall 2027-04-10", name: this name is taken, see targets.yaml:5; choose another: got "Stall 2027-04-10"`},
		{"no name", list, hayOf(""), "targets.yaml: target 3, name: a name cannot be empty"},
		{"a name of two lines", list, hayOf("a\nb"), `targets.yaml: target "a\nb", name: a name is a single line of letters, digits and signs: got "a\nb"`},
		{"a day without a time", list, with(func(n *NewTarget) { n.By = "2027-04-10" }), `targets.yaml: target "Fair", by: a moment needs the time too: got "2027-04-10"; write 2027-04-10 07:00`},
		{"a time that the clocks skip", list, with(func(n *NewTarget) { n.By = "2027-03-28 01:30" }), `targets.yaml: target "Fair", by: the clocks go forward over this time, so there is no such moment: got "2027-03-28 01:30"; write 2027-03-28 02:00 or later`},
		{"too early", list, with(func(n *NewTarget) { n.By = "2027-03-01 05:59" }), `targets.yaml: target "Fair", by: this is before the planning start, 2027-03-01 06:00: got "2027-03-01 05:59"`},
		{"too late", list, with(func(n *NewTarget) { n.By = "2037-03-01 05:59" }), `targets.yaml: target "Fair", by: this is further ahead of the planning start`},
		{"no such cheese", list, with(func(n *NewTarget) { n.Wants[0].Cheese = "Secnod" }), `targets.yaml: target "Fair", want 1, cheese: there is no recipe of this name: got "Secnod"; did you mean "Second"?`},
		{"no pieces", list, with(func(n *NewTarget) { n.Wants[0].Pieces = 0 }), `targets.yaml: target "Fair", want 1, pieces: this number is at least 1: got "0"`},
		{"a price below nothing", list, with(func(n *NewTarget) { n.Wants[0].Price = -1 }), `targets.yaml: target "Fair", want 1, price: a price is a plain number from 0: got "-0.01"`},
		{"a file with a fault", "targets:\n- {name: a}\n", hayOf("Fair"), "targets.yaml:2:3: target \"a\": by is missing"},
		{"a file with other keys", list + "notes: none\n", hayOf("Fair"), `targets.yaml:6:1: this file has no such key: got "notes"; write one of targets`},
		{"a file with a tab", "targets:\n\t- a\n", hayOf("Fair"), "targets.yaml:2:1: this is not YAML"},
		{"nothing by a word", "# c\ntargets: null\n", hayOf("Fair"), `targets.yaml:2:10: this says that there are no targets, so none can be added below it: got "null"; write targets: []`},
		{"a file of nothing by a word", "~\n", hayOf("Fair"), "targets.yaml: no place was found at which a target can be added to this layout; add it by hand to the list: - " + hayFlow},
		{"a text that the empty lines below belong to", "targets:\n- name: a\n  by: |+\n   2027-04-03 07:00\n\n# b\n", hayOf("Fair"), "targets.yaml: no place was found at which a target can be added to this layout; add it by hand to the list: - " + hayFlow},
		{"a full list", "targets:\n" + strings.Repeat("- {}\n", MaxEntries+1), hayOf("Fair"), "targets.yaml:2:1: targets: 2001 entries are more than the limit of 2000"},
		{"a file that would be too long", "# " + strings.Repeat("a", MaxFileBytes-10), hayOf("Fair"), "targets.yaml: this file is larger than the limit of 1048576 bytes; take out what is not needed"},
	} {
		p := loaded(t, targetKitchen(t, ""), targetFrom)
		text, err := AddTarget([]byte(c.old), p, c.t)
		if text != nil || err == nil || !strings.HasPrefix(err.Error(), c.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: got %q and the error\n%v\nwant one line\n%s", c.name, text, err, c.want)
		}
	}
}

// Other keys beside the list are refused by the reader of today. The place is right
// all the same.
func TestInsertionStaysAboveOtherKeys(t *testing.T) {
	for _, c := range []struct{ name, old, inserted string }{
		{"lines", "a: 1\ntargets:\n  " + aBlock + "    # of a\n»\n# of b\nb:\n  - c\n", "  " + hayFair},
		{"nothing", "targets:\n»b: 2\n", "  " + hayFair},
		{"brackets", "{a: [], targets: [" + aFlow + "»], b: [2]}\n", ", " + hayFlow},
	} {
		old := []byte(strings.Replace(c.old, "»", "", 1))
		doc, _, err := documents(old)
		if err != nil {
			t.Fatal(err)
		}
		ins, fault := insertionOf(old, doc.Content[0], []NewTarget{hayOf("Fair")})
		if fault != nil {
			t.Fatal(fault)
		}
		if got, want := string(ins.into(old)), strings.Replace(c.old, "»", c.inserted, 1); got != want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, got, want)
		}
	}
}

// The last check stands on its own: whatever was inserted wherever, a text that does
// not say what the old one said and then the new target is not given.
func TestWhatIsWrittenIsReadAgain(t *testing.T) {
	// The first target is over, so the plan's targets alone would not show a change.
	old := "targets:\n- name: over\n  by: 2027-01-02 07:00\n- name: a\n  by: 2027-04-03 07:00\n  packed: &p 2 h\n"
	n := hayOf("Fair")
	entry := "- " + hayFlow + "\n"
	p := loaded(t, targetKitchen(t, old), targetFrom)
	was := readTargets([]byte(old), p)
	if err := was.grownBy([]NewTarget{n}, []byte(old+entry), p); err != nil {
		t.Fatalf("the right text is refused: %v", err)
	}
	for _, c := range []struct{ name, text string }{
		{"not there", old},
		{"not there, a comment", old + "# " + entry},
		{"not at the end", strings.Replace(old, "- name: a", entry+"- name: a", 1)},
		{"twice", old + entry + strings.Replace(entry, "Fair", "Fair 2", 1)},
		{"another name", old + strings.Replace(entry, "Fair", "Fare", 1)},
		{"another moment", old + strings.Replace(entry, "07:00", "08:00", 1)},
		{"another moment, written differently", old + strings.Replace(entry, "07:00", "06:59", 1)},
		{"earlier packing", old + strings.Replace(entry, "want", "packed: 1 h, want", 1)},
		{"other pieces", old + strings.Replace(entry, "pieces: 2", "pieces: 3", 1)},
		{"another price", old + strings.Replace(entry, "pieces: 2", "pieces: 2, price: 2", 1)},
		{"a promise", old + strings.Replace(entry, "pieces: 2", "pieces: 2, promised: true", 1)},
		{"one want more", old + strings.Replace(entry, "}]", "}, {cheese: Second, pieces: 2, price: 3}]", 1)},
		{"repeated", old + strings.Replace(entry, "want", "every: week, until: 2027-04-11, want", 1)},
		{"in place of another", "targets:\n- name: over\n  by: 2027-01-02 07:00\n" + entry},
		{"a past target changed", strings.Replace(old, "over", "late", 1) + entry},
		{"a past target gone", strings.Replace(old, "- name: over\n  by: 2027-01-02 07:00\n", "", 1) + entry},
		{"a target changed", strings.Replace(old, "2 h", "3 h", 1) + entry},
		{"an anchor gone", strings.Replace(old, "&p ", "", 1) + entry},
		{"not YAML", old + " " + entry},
		{"two documents", old + "---\ntargets:\n" + entry},
		{"another key", old + entry + "notes: []\n"},
		{"nothing at all", ""},
	} {
		var none *NoPlaceError
		err := was.grownBy([]NewTarget{n}, []byte(c.text), p)
		if !errors.As(err, &none) || !strings.Contains(err.Error(), hayFlow) {
			t.Errorf("%s: got the error %v, want that no place was found", c.name, err)
		}
	}
}

// Several go in together, one after the other, each as the last one before them is laid out.
func TestAddTargetsTogether(t *testing.T) {
	add := []NewTarget{hayOf("Fair"), hayOf("Fete")}
	fete := func(text string) string { return strings.Replace(text, "Fair", "Fete", 1) }
	for _, c := range []struct{ name, old, inserted string }{
		{"an empty file", "»", "targets:\n  " + hayFair + "  " + fete(hayFair)},
		{"a key with nothing", "targets:\n»", "  " + hayFair + "  " + fete(hayFair)},
		{"an empty list", "targets: [»] # none yet\n", hayFlow + ", " + fete(hayFlow)},
		{"no key at all", "{»}\n", `"targets": [` + hayJSON + ", " + fete(hayJSON) + "]"},
		{"a key alone in braces", "{targets»}\n", ": [" + hayFlow + ", " + fete(hayFlow) + "]"},
		{"lines, the last one without an end", "targets:\n  " + strings.TrimSuffix(aBlock, "\n") + "»", "\n  " + hayFair + "  " + strings.TrimSuffix(fete(hayFair), "\n")},
		{"empty lines between", "targets:\n\n  - " + aFlow + "\n\n  - " + bFlow + "\n»\n# the end\n", "\n  - " + hayFlow + "\n\n  - " + fete(hayFlow) + "\n"},
		{"brackets on one line", "targets: [" + aFlow + "», ]\n", ", " + hayFlow + ", " + fete(hayFlow)},
		{"brackets, a target to a line", "targets: [\n  " + aFlow + "»,\n]\n", ",\n  " + hayFlow + ",\n  " + fete(hayFlow)},
		{"brackets, a comment after the comma", "targets: [\n  " + aFlow + ", # of a »\n]\n", "\n  " + hayFlow + ",\n  " + fete(hayFlow) + ","},
		{"brackets, a comment without", "targets: [\n  " + aFlow + " # of a »\n]\n", "\n  , " + hayFlow + "\n  , " + fete(hayFlow)},
	} {
		old := strings.Replace(c.old, "»", "", 1)
		p := loaded(t, targetKitchen(t, old), targetFrom)
		text, err := AddTargets([]byte(old), p, add)
		if want := strings.Replace(c.old, "»", c.inserted, 1); err != nil || string(text) != want {
			t.Errorf("%s: got the error %v and\n%s\nwant\n%s", c.name, err, text, want)
			continue
		}
		holdsMore(t, t, p, add, []byte(old), text)
	}
	old := []byte("targets:\n# end\n")
	p := loaded(t, targetKitchen(t, string(old)), targetFrom)
	if text, err := AddTargets(old, p, nil); err != nil || !bytes.Equal(text, old) {
		t.Errorf("none: got %q, %v, want the text as it was", text, err)
	}
	if text, err := AddTargets(old, p, []NewTarget{hayOf("Fair"), hayOf("Fair")}); text != nil || err == nil || !strings.Contains(err.Error(), "this name is taken") {
		t.Errorf("a name twice: got %q, %v, want that the name is taken and nothing", text, err)
	}
}

// What is taken is every name in the file, of what is over and of what comes again too.
func TestReadTargets(t *testing.T) {
	p := loaded(t, targetKitchen(t, ""), targetFrom)
	targets, taken, err := ReadTargets([]byte("targets:\n- {name: over, by: 2027-01-02 07:00, want: []}\n"+
		"- {name: Stall, by: 2027-04-03 07:00, every: week, until: 2027-04-10, want: [{cheese: Second, pieces: 1}]}\n"), p)
	if err != nil || len(targets) != 2 || targets[0].Name != "Stall 2027-04-03" {
		t.Errorf("got %v, %v, want the two dates of the stall", targets, err)
	}
	same(t, "taken", taken, map[string]string{"over": "targets.yaml:2", "Stall": "targets.yaml:3", "Stall 2027-04-03": "targets.yaml:3", "Stall 2027-04-10": "targets.yaml:3"})
	if _, _, err := ReadTargets([]byte("targets: 3\n"), p); err == nil {
		t.Error("a text that is no list is taken")
	}
}

// The old text is not written to, even where it has room behind it.
func TestAddTargetLeavesTheOldTextAlone(t *testing.T) {
	old := append(make([]byte, 0, 4096), "targets:\n# end\n"...)
	p := loaded(t, targetKitchen(t, string(old)), targetFrom)
	if _, err := AddTarget(old, p, hayOf("Fair")); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(old, []byte("targets:\n# end\n")) || bytes.ContainsAny(old[:64], "{") {
		t.Errorf("the old text is now %q", old)
	}
}
