package config

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
)

// holdLine is how the recipe of the tests has the hold that is learned.
const holdLine = "hold: {least: 18 h, best: 22 h, most: 28 h}"

// The parts of a recipe that is written in other ways, each with what is learned in it: only what is shown differs.
func TestLearnedIsWrittenByTheLine(t *testing.T) {
	times := func(f resources.Factor) Learned {
		return Learned{Times: []LearnedTimes{{Stage: "set", Times: f, Temperature: 20_500}}}
	}
	yield := Learned{Yield: &schedule.Yield{Pieces: 103, From: 52_000}}
	both := Learned{Times: times(1117).Times, Yield: yield.Yield}
	cases := []struct {
		name     string
		old, new string // in place of holdLine
		learned  Learned
		text     string // in place of new
	}{
		{"a number in its place", holdLine, "hold: {least: 18 h, most: 28 h, ready: 20 h, goes_by: {temperature: 21 °C, times: 1.18}}", times(1117),
			"hold: {least: 18 h, most: 28 h, ready: 20 h, goes_by: {temperature: 21 °C, times: 1.117}}"},
		{"the same number", holdLine, "hold: {least: 18 h, most: 28 h, ready: 20 h, goes_by: {times:  1.180 , temperature: 21 °C}}", times(1180),
			"hold: {least: 18 h, most: 28 h, ready: 20 h, goes_by: {times:  1.18 , temperature: 21 °C}}"},
		{"beside its temperature", holdLine, "hold: {ready: 20 h , goes_by: { temperature: 21 °C }, least: 18 h, most: 28 h}", times(900),
			"hold: {ready: 20 h , goes_by: { temperature: 21 °C, times: 0.9 }, least: 18 h, most: 28 h}"},
		{"with a temperature", holdLine, "hold: {ready: 20 h, least: 18 h, most: 28 h}", times(1000),
			"hold: {ready: 20 h, goes_by: {temperature: 20.5 °C, times: 1}, least: 18 h, most: 28 h}"},
		{"in quotation marks", holdLine, `hold: {least: 18 h, most: 28 h, ready: '20 h', goes_by: {temperature: "21 °C", times: '1.18'}}`, times(1117),
			`hold: {least: 18 h, most: 28 h, ready: '20 h', goes_by: {temperature: "21 °C", times: '1.117'}}`},
		{"as JSON", holdLine, `"hold": {"least": "18 h", "most": "28 h", "ready": "20 h"}`, times(1117),
			`"hold": {"least": "18 h", "most": "28 h", "ready": "20 h", "goes_by": {"temperature": "20.5 °C", "times": 1.117}}`},
		{"over lines in braces", holdLine, "hold: {least: 18 h,  # a\n      most: 28 h,\n      ready: 20 h # b\n      }", times(1117),
			"hold: {least: 18 h,  # a\n      most: 28 h,\n      ready: 20 h, goes_by: {temperature: 20.5 °C, times: 1.117} # b\n      }"},
		{"a yield", "{pieces: 9, from: 5 L}", "{pieces: 9 , from: 5 L } # so far", yield, "{pieces: 103 , from: 52 L } # so far"},
		{"a yield in lines", "{pieces: 9, from: 5 L}", "\n  from: 1 gal (US)\n  # counted\n  pieces: \"7\"", yield, "\n  from: 52 L\n  # counted\n  pieces: \"103\""},
		{"both", holdLine, "hold: {least: 18 h, most: 28 h, ready: 20 h}", both, "hold: {least: 18 h, most: 28 h, ready: 20 h, goes_by: {temperature: 20.5 °C, times: 1.117}}"},
		{"an anchor of its own", holdLine, "hold: &h {least: 18 h, most: 28 h, ready: &r 20 h}", times(1117), "hold: &h {least: 18 h, most: 28 h, ready: &r 20 h, goes_by: {temperature: 20.5 °C, times: 1.117}}"},
	}
	for _, c := range cases {
		for _, bytesAs := range []string{"as they are", "CR LF", "byte order mark", "no last newline"} {
			files := saltgrass(t)
			old := string(files["recipes/ash-button.yaml"].Data)
			if !strings.Contains(old, c.old) {
				t.Fatalf("%s: the recipe has no %q", c.name, c.old)
			}
			as := func(text string) string {
				switch bytesAs {
				case "CR LF":
					return strings.ReplaceAll(text, "\n", "\r\n")
				case "byte order mark":
					return "\ufeff" + text
				case "no last newline":
					return strings.TrimRight(text, "\n")
				}
				return text
			}
			was := as(strings.Replace(old, c.old, c.new, 1))
			want := as(strings.Replace(old, c.old, c.text, 1))
			if c.name == "both" {
				want = strings.Replace(want, "{pieces: 9, from: 5 L}", "{pieces: 103, from: 52 L}", 1)
			}
			got, err := SetLearned("recipes/ash-button.yaml", []byte(was), loaded(t, files, saltgrassFrom), c.learned)
			if err != nil || string(got) != want {
				t.Errorf("%s, %s: %v\n got %q\nwant %q", c.name, bytesAs, err, got, want)
			}
		}
	}
}

// A recipe in lines keeps its comments where they are.
func TestLearnedIsWrittenIntoLines(t *testing.T) {
	const recipe = `name: Ash button
yield:
  pieces: 9   # of ours
  from: 5 L
batch: {least: 5 L, most: 15 L}
keeps: 6 d
stages:
- stage: make
  hands: 40 min
  hold:
    # seen by ourselves
    ready: 17 h  # in spring
    # the longest that ever was
    most: 28 h
- hold:
    goes_by:
        temperature: 21 °C # of the shelf

        # nothing else
    ready: 9 h
    most: 15 h
  stage: drain
  hands: 20 min
- stage: pack
  hands: 10 min
`
	learned := Learned{Yield: &schedule.Yield{Pieces: 31, From: 15_500},
		Times: []LearnedTimes{{"make", 1180, 20_000}, {"drain", 850, 20_000}}}
	for _, brk := range []string{"\n", "\r\n"} {
		want := strings.NewReplacer("pieces: 9 ", "pieces: 31 ", "from: 5 L", "from: 15.5 L",
			"# in spring", "# in spring\n    goes_by: {temperature: 20 °C, times: 1.18}", "# of the shelf", "# of the shelf\n        times: 0.85").Replace(recipe)
		got, err := SetLearned("r.yaml", []byte(strings.ReplaceAll(recipe, "\n", brk)), loaded(t, small(), saltgrassFrom), learned)
		if want = strings.ReplaceAll(want, "\n", brk); err != nil || string(got) != want {
			t.Errorf("%v\n got %q\nwant %q", err, got, want)
		}
	}
}

// What cannot be written without saying something else is not written, and is told with how to write it.
func TestLearnedIsRefusedWhereItHasNoPlace(t *testing.T) {
	files := saltgrass(t)
	kitchen := loaded(t, files, saltgrassFrom)
	old := string(files["recipes/ash-button.yaml"].Data)
	for _, c := range []struct{ name, from, to, want string }{
		{"an alias", "hold: {least: 9 h, best: 11 h, most: 15 h}", "hold: *h", `what was learned cannot be written into this layout without changing what else it says; write it by hand: stage "set", goes_by: {temperature: 20 °C, times: 1.117}`},
		{"a length in escapes", "ready: 20 h", `ready: "20\u0020h"`, `write it by hand: stage "set", goes_by: {temperature: 20 °C, times: 1.117}`},
		{"a fault", "ready: 20 h", "ready: 30 h", "ready (1 d 6 h) must lie between"},
	} {
		text := strings.Replace(old, holdLine, "hold: &h {least: 9 h, most: 28 h, ready: 20 h}", 1)
		changed := strings.Replace(text, c.from, c.to, 1)
		if changed == text {
			t.Fatalf("%s changes nothing", c.name)
		}
		got, err := SetLearned("recipes/ash-button.yaml", []byte(changed), kitchen, Learned{Times: []LearnedTimes{{"set", 1117, 20_000}}})
		var no *NoRoomError
		if got != nil || err == nil || !strings.Contains(err.Error(), c.want) || c.name != "a fault" && !errors.As(err, &no) {
			t.Errorf("%s: got %q and %v", c.name, got, err)
		}
	}
	y := schedule.Yield{Pieces: MaxPieces + 1, From: 1_000_000}
	if _, err := SetLearned("recipes/ash-button.yaml", []byte(old), kitchen, Learned{Yield: &y}); err == nil {
		t.Error("more pieces than can be read were written")
	}
}

// A recipe is found by its name in whichever file it is, and is replaced only while it is what it was.
func TestRecipesAreFoundAndReplaced(t *testing.T) {
	dir := saltgrassAt(t)
	file, text, err := RecipeText(dir, "Ash button")
	if err != nil || file != "recipes/ash-button.yaml" || !strings.HasPrefix(string(text), "name: Ash button\n") {
		t.Fatalf("got %q, %q, %v", file, text, err)
	}
	if _, _, err := RecipeText(dir, "Brie"); err == nil || !strings.Contains(err.Error(), "the recipe of Brie is not there") {
		t.Errorf("got %v", err)
	}
	if err := WriteRecipe(dir, file, text, append(text, "# more\n"...)); err != nil {
		t.Error(err)
	}
	if err := WriteRecipe(dir, file, text, text); !errors.Is(err, ErrChanged) {
		t.Errorf("got %v, want that it has changed", err)
	}
	now, err := os.ReadFile(filepath.Join(dir, file))
	if err != nil || !strings.HasSuffix(string(now), "# more\n") {
		t.Errorf("got %q, %v", now, err)
	}
}
