package config

import (
	"strings"
	"testing"

	"ripeby/schedule"
)

// Nobody who could work is no error, since people may be written in later, but a
// maker should not have to guess it from what falls short.
func TestNobodyToWorkIsAWarning(t *testing.T) {
	const pots = "\npots: [{name: tall pot, holds: 10 L}]"
	for _, c := range []struct{ name, people, code, text string }{
		{"nobody", "people: []", "nobody", "There are no people in kitchen.yaml, so nobody can do any work"},
		{"no hours", "people: [{name: Nell}]", "person-without-hours", "Nell has no hours in kitchen.yaml, so no work can be given to Nell"},
		{"hours", "people: [{name: Nell, hours: [daily 06:00-22:00]}]", "", ""},
	} {
		files := small()
		edit(t, files, "kitchen.yaml", "", "kitchen: {timezone: UTC}\n"+c.people+pots)
		var want []schedule.Warning
		if c.code != "" {
			want = []schedule.Warning{{Code: c.code, Text: c.text}}
		}
		same(t, c.name, loaded(t, files, saltgrassFrom).Warnings, want)
	}
}

// A recipe whose every key is misspelt once made the reader look for its last
// stage.
func TestMisspeltRecipeHasNoStages(t *testing.T) {
	files := small()
	edit(t, files, "recipes/a.yaml", "", "Ame: \nYeld:\nATCh:\neeps: \nstAgs:")
	_, err := LoadFS(files, Options{From: saltgrassFrom})
	if err == nil || !strings.Contains(err.Error(), `recipes/a.yaml:5:1: recipe has no such key: got "stAgs"; did you mean "stages"?`) {
		t.Errorf("got %v, want faults about the keys", err)
	}
}

// A name with a line break or a mark that turns the writing round stays on the
// line of its fault and does not steer the terminal.
func TestFaultIsOneLineWhateverTheName(t *testing.T) {
	files := small()
	edit(t, files, "recipes/a.yaml", "", strings.Replace(minimalRecipe, "Second", `"two\nlines\u202e\e[31m"`, 1))
	_, err := LoadFS(files, Options{From: saltgrassFrom})
	if err == nil || strings.ContainsAny(err.Error(), "\n\u202e\x1b") || !strings.Contains(err.Error(), `recipe "two?lines??[31m"`) {
		t.Errorf("got %q, want one line that cannot steer a terminal", err)
	}
}
