package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/pflag"

	"ripeby/config"
)

// Each setting comes from the first source that gives it: command line,
// environment, settings file, default.
func TestSettingsPrecedence(t *testing.T) {
	home := t.TempDir()
	if err := os.MkdirAll(filepath.Join(home, "ripeby"), 0o755); err != nil {
		t.Fatal(err)
	}
	const file = "folder: filekitchen\nout: fileout\nwidth: 61\ncolour: never\nwork: 11\n"
	if err := os.WriteFile(filepath.Join(home, "ripeby", "settings.yaml"), []byte(file), 0o644); err != nil {
		t.Fatal(err)
	}
	inKitchen := func(kitchen string) string { return filepath.Join(kitchen, "plan") }
	for _, c := range []struct {
		name  string
		file  bool
		env   map[string]string
		flags []string
		demo  bool
		want  settings
	}{
		{name: "defaults", want: settings{folder: ".", out: "plan", colour: "auto"}},
		{name: "file", file: true,
			want: settings{folder: "filekitchen", out: "fileout", width: 61, colour: "never", work: 11}},
		{name: "environment over file", file: true,
			env:  map[string]string{"RIPEBY_FOLDER": "envkitchen", "RIPEBY_OUT": "envout", "RIPEBY_WIDTH": "62", "RIPEBY_COLOUR": "always", "RIPEBY_WORK": "12"},
			want: settings{folder: "envkitchen", out: "envout", width: 62, colour: "always", work: 12}},
		{name: "flags over both", file: true,
			env:   map[string]string{"RIPEBY_FOLDER": "envkitchen", "RIPEBY_OUT": "envout", "RIPEBY_WIDTH": "62", "RIPEBY_COLOUR": "always", "RIPEBY_WORK": "12"},
			flags: []string{"-C", "flagkitchen", "--out", "flagout", "--width", "63", "--colour", "auto", "--work", "13"},
			want:  settings{folder: "flagkitchen", out: "flagout", outGiven: true, width: 63, colour: "auto", work: 13}},
		{name: "a flag with its default value is given all the same", file: true, flags: []string{"--width", "0"},
			want: settings{folder: "filekitchen", out: "fileout", width: 0, colour: "never", work: 11}},
		{name: "another kitchen keeps its own plan", file: true, flags: []string{"-C", "flagkitchen"},
			want: settings{folder: "flagkitchen", out: inKitchen("flagkitchen"), width: 61, colour: "never", work: 11}},
		{name: "another kitchen with an out from the environment", file: true, flags: []string{"-C", "flagkitchen"},
			env:  map[string]string{"RIPEBY_OUT": "envout"},
			want: settings{folder: "flagkitchen", out: "envout", width: 61, colour: "never", work: 11}},
		{name: "another kitchen from the environment keeps its own plan", file: true,
			env:  map[string]string{"RIPEBY_FOLDER": "envkitchen"},
			want: settings{folder: "envkitchen", out: inKitchen("envkitchen"), width: 61, colour: "never", work: 11}},
		{name: "a kitchen from the environment, without an out", env: map[string]string{"RIPEBY_FOLDER": "envkitchen"},
			want: settings{folder: "envkitchen", out: inKitchen("envkitchen"), colour: "auto"}},
		{name: "the demo keeps away from the kitchen's plan", file: true, demo: true,
			env:  map[string]string{"RIPEBY_OUT": "envout"},
			want: settings{folder: "filekitchen", out: demoOut, width: 61, colour: "never", work: 11}},
		{name: "the demo goes where the command line says", demo: true, flags: []string{"--out", "here"},
			want: settings{folder: ".", out: "here", outGiven: true, colour: "auto"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			env := func(key string) string {
				if key == "XDG_CONFIG_HOME" && c.file {
					return home
				}
				return c.env[key]
			}
			got, err := settingsFor(t, env, c.flags, c.demo)
			if err != nil {
				t.Fatal(err)
			}
			if *got != c.want {
				t.Errorf("got %+v, want %+v", *got, c.want)
			}
		})
	}
}

func TestSettingsFaults(t *testing.T) {
	for _, c := range []struct {
		name  string
		env   map[string]string
		flags []string
		demo  bool
		want  string
	}{
		{"width in words", map[string]string{"RIPEBY_WIDTH": "wide"}, nil, false, `RIPEBY_WIDTH is "wide"`},
		{"width beyond the limit", nil, []string{"--width", "1001"}, false, `--width is "1001"; want a whole number from 0 to 1000`},
		{"half a unit of work", map[string]string{"RIPEBY_WORK": "1.5"}, nil, false, `RIPEBY_WORK is "1.5"`},
		{"colour", nil, []string{"--colour", "blue"}, false, `--colour is "blue"; want auto, always or never`},
		{"demo and a folder", nil, []string{"-C", "x"}, true, "cannot both be given"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := settingsFor(t, func(key string) string { return c.env[key] }, c.flags, c.demo)
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Fatalf("got %v, want %s", err, c.want)
			}
			if f, ok := err.(*failure); !ok || f.code != exitWrong {
				t.Errorf("got %#v, want a failure with exit code 2", err)
			}
		})
	}
}

// A settings file of which only the beginning would be read is refused: a key behind it, or
// half a one, would otherwise be lost without a word.
func TestSettingsFileIsReadWhole(t *testing.T) {
	home := t.TempDir()
	path := filepath.Join(home, "ripeby", "settings.yaml")
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	env := func(name string) string { return map[string]string{"XDG_CONFIG_HOME": home}[name] }
	const last = "\nwidth: 61\n"
	for _, more := range []int{0, 1} {
		text := "#" + strings.Repeat("x", config.MaxFileBytes-1-len(last)+more) + last
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		got, err := settingsFor(t, env, nil, false)
		if more == 0 {
			if err != nil || got.width != 61 {
				t.Errorf("at the limit: got %+v (%v), want its last line read", got, err)
			}
			continue
		}
		want := "the settings file " + path + " cannot be read: this file is larger than the limit of 1048576 bytes; take out what is not needed"
		if f, ok := err.(*failure); !ok || f.code != exitWrong || err.Error() != want {
			t.Errorf("beyond the limit: got %v, want exit code 2 and %q", err, want)
		}
	}
}

// settingsFor parses flags as ripeby plan does and gathers the settings.
func settingsFor(t *testing.T, env func(string) string, args []string, demo bool) (*settings, error) {
	t.Helper()
	flags := pflag.NewFlagSet("plan", pflag.ContinueOnError)
	folderFlags(flags)
	outFlag(flags)
	tableFlags(flags)
	flags.Int64("work", 0, "")
	if err := flags.Parse(args); err != nil {
		t.Fatal(err)
	}
	return newProgram(streams{}, env).settings(flags, demo)
}
