package config

import (
	"bytes"
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"go.yaml.in/yaml/v3"
)

// small is the least kitchen folder: nobody, nothing, no target.
func small() fstest.MapFS {
	return fstest.MapFS{
		"kitchen.yaml": {Data: []byte("kitchen: {timezone: Europe/Dublin}\n")},
		"targets.yaml": {Data: []byte("")},
	}
}

func TestAFolderWithNothingInItLoads(t *testing.T) {
	p := loaded(t, small(), "2027-03-01")
	same(t, "name", p.Kitchen.Name, "Kitchen")
	if len(p.Kitchen.People)+len(p.Recipes)+len(p.Targets)+len(p.Begun)+len(p.Warnings) != 0 {
		t.Errorf("got %+v, want nothing", p)
	}
	files := small()
	edit(t, files, "kitchen.yaml", "", "kitchen: {timezone: UTC}\npeople: []\nround:\npots: []\nstations: []\nmoulds: []\nboxes: []\ncold: []\nmilk: []\n")
	edit(t, files, "targets.yaml", "", "targets: []\n")
	edit(t, files, "begun.yaml", "", "begun: []\nstock: []\nordered: []\nlost: []\n")
	loaded(t, files, "2027-03-01")
}

func TestMissingFilesAreNamed(t *testing.T) {
	_, err := LoadFS(fstest.MapFS{}, Options{From: saltgrassFrom})
	want := "kitchen.yaml: this file is not there; every kitchen folder needs it\n" +
		"targets.yaml: this file is not there; every kitchen folder needs it"
	if err == nil || err.Error() != want {
		t.Errorf("got:\n%v\nwant:\n%s", err, want)
	}
	files := saltgrass(t)
	delete(files, "begun.yaml")
	loaded(t, files, saltgrassFrom)
	delete(files, "recipes/ash-button.yaml")
	_, err = LoadFS(files, Options{From: saltgrassFrom})
	if err == nil || !strings.HasPrefix(err.Error(), `targets.yaml:5:18: target "Easter market", want 1, cheese: there is no recipe at all, and a target needs one: put a file such as recipes/ash-button.yaml into the folder: got "Ash button"`) {
		t.Errorf("got %v, want a fault about the recipe that is not there", err)
	}
}

func TestLoadOfNoFolder(t *testing.T) {
	dir := t.TempDir()
	var faults Faults
	_, err := Load(filepath.Join(dir, "kitchen"), Options{})
	if !errors.Is(err, fs.ErrNotExist) || errors.As(err, &faults) {
		t.Errorf("got %v, want a plain error that is fs.ErrNotExist", err)
	}
	file := filepath.Join(dir, "kitchen.yaml")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err = Load(file, Options{}); err == nil || !strings.Contains(err.Error(), "name the kitchen folder that holds it") {
		t.Errorf("got %v, want a hint to name the folder", err)
	}
}

// locked is a folder one of whose files nobody may open.
type locked struct {
	fstest.MapFS
	file string
}

func (l locked) Open(name string) (fs.File, error) {
	if name == l.file {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrPermission}
	}
	return l.MapFS.Open(name)
}

func TestAFileThatCannotBeRead(t *testing.T) {
	_, err := LoadFS(locked{saltgrass(t), "targets.yaml"}, Options{From: saltgrassFrom})
	if err == nil || err.Error() != "targets.yaml: this file cannot be read: permission denied; let yourself read it, with: chmod u+rX targets.yaml" {
		t.Errorf("got %v, want a fault that says why", err)
	}
}

// What a machine or an editor does to the bytes of a file makes no difference.
func TestTheSameFolderInOtherBytes(t *testing.T) {
	want := loaded(t, saltgrass(t), saltgrassFrom)
	for name, change := range map[string]func([]byte) []byte{
		"byte order mark": func(b []byte) []byte { return append([]byte("\ufeff"), b...) },
		"CR LF":           func(b []byte) []byte { return bytes.ReplaceAll(b, []byte("\n"), []byte("\r\n")) },
		"document start":  func(b []byte) []byte { return append([]byte("---\n"), b...) },
		"no last newline": func(b []byte) []byte { return bytes.TrimRight(b, "\n") },
		"JSON":            asJSON(t),
	} {
		t.Run(name, func(t *testing.T) {
			files := saltgrass(t)
			for _, f := range files {
				f.Data = change(f.Data)
			}
			if got := loaded(t, files, saltgrassFrom); !reflect.DeepEqual(got, want) {
				t.Errorf("got  %+v\nwant %+v", got, want)
			}
		})
	}
}

// asJSON writes a file of the folder as JSON, every value that is not a number or
// a truth as text.
func asJSON(t *testing.T) func([]byte) []byte {
	return func(b []byte) []byte {
		var n yaml.Node
		if err := yaml.Unmarshal(b, &n); err != nil {
			t.Fatal(err)
		}
		return jsonOf(t, n.Content[0])
	}
}

func jsonOf(t *testing.T, n *yaml.Node) []byte {
	var parts [][]byte
	for _, c := range n.Content {
		parts = append(parts, jsonOf(t, c))
	}
	switch n.Kind {
	case yaml.SequenceNode:
		return slicesJoin("[", parts, []byte(","), "]")
	case yaml.MappingNode:
		var pairs [][]byte
		for i := 0; i < len(parts); i += 2 {
			pairs = append(pairs, slicesJoin("", parts[i:i+2], []byte(":"), ""))
		}
		return slicesJoin("{", pairs, []byte(",\n"), "}")
	}
	if n.Tag == "!!int" || n.Tag == "!!bool" || n.Tag == "!!float" {
		return []byte(n.Value)
	}
	text, err := json.Marshal(n.Value)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func slicesJoin(open string, parts [][]byte, comma []byte, end string) []byte {
	return append(append([]byte(open), bytes.Join(parts, comma)...), end...)
}

// YAML 1.1 reads 06:00 as a number to base 60, no as false, and a date as a time
// stamp. None of this happens here, and a plain alias stands for what it names.
func TestYAMLsOwnIdeasOfValues(t *testing.T) {
	files := small()
	edit(t, files, "kitchen.yaml", "", `
kitchen: {timezone: Europe/Dublin, name: no}
people:
  - {name: 007, hours: &early ["daily 06:00-08:00"], away: [2027-03-12, "2027-03-13"]}
  - {name: on, hours: *early}
round: {at: 06:00, for: 5 min}
pots: [{name: 1e3, holds: "10 L"}]
moulds: [{name: null hole, count: "12"}, {name: "null", count: 010}]
`)
	k := loaded(t, files, "2027-03-01").Kitchen
	same(t, "names", []string{k.Name, k.People[0].Name, k.People[1].Name, k.Pots[0].Name, k.Moulds[0].Name, k.Moulds[1].Name},
		[]string{"no", "007", "on", "1e3", "null hole", "null"})
	same(t, "round", int(k.Round.At), 360)
	same(t, "hours by alias", k.People[1].Hours, k.People[0].Hours)
	same(t, "counts", []int{k.Moulds[0].Count, k.Moulds[1].Count}, []int{12, 10})
	same(t, "days away", len(k.People[0].Away), 2)
}

func TestThePlanningStart(t *testing.T) {
	now := func(text string) time.Time {
		m, err := time.Parse(time.RFC3339Nano, text)
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	for _, c := range []struct {
		name string
		opt  Options
		want string // Dublin time, or the fault
	}{
		{"now, to the minute", Options{Now: now("2027-03-01T06:00:00Z")}, "2027-03-01 06:00"},
		{"now, a second later", Options{Now: now("2027-03-01T06:00:01Z")}, "2027-03-01 06:01"},
		{"now, a nanosecond later", Options{Now: now("2027-03-01T06:00:00.000000001Z")}, "2027-03-01 06:01"},
		{"now, in summer", Options{Now: now("2027-06-01T06:00:00Z")}, "2027-06-01 07:00"},
		{"local", Options{From: "2027-06-01 06:00"}, "2027-06-01 06:00"},
		{"with an offset", Options{From: "2027-06-01T06:00:00+02:00"}, "2027-06-01 05:00"},
		{"with seconds", Options{From: "2027-06-01T06:00:30Z"}, "2027-06-01 07:01"},
		{"a date", Options{From: "2027-06-01"}, "2027-06-01 00:00"},
		{"skipped", Options{From: "2027-03-28 01:30"}, "--from: the clocks go forward over this time, so there is no such moment: got \"2027-03-28 01:30\"; write 2027-03-28 02:00 or later"},
		{"a word", Options{From: "tomorrow"}, "--from: a moment is a date and a time: got \"tomorrow\"; write 2027-03-27 07:00, or with an offset 2027-03-27T07:00:00+00:00"},
		{"no clock at all", Options{}, "--from: the present year is given as 1; is the clock right?"},
	} {
		p, err := LoadFS(small(), c.opt)
		if err != nil {
			same(t, c.name, err.Error(), c.want)
			continue
		}
		same(t, c.name, p.From.In(p.Kitchen.Zone).Format("2006-01-02 15:04"), c.want)
	}
}
