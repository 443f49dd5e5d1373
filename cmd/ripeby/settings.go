package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/pflag"
	"github.com/spf13/viper"

	"ripeby/config"
)

// settingsHelp tells where settings come from.
const settingsHelp = `Settings, the first that is given counts:
  1. options on the command line
  2. the environment: RIPEBY_FOLDER, RIPEBY_OUT, RIPEBY_WIDTH, RIPEBY_COLOUR,
     RIPEBY_WORK (NO_COLOR is honoured too)
  3. the file ripeby/settings.yaml in $XDG_CONFIG_HOME (else in ~/.config), with
     the keys folder, out, width, colour, work
With --demo only the command line says where the plan is kept. The "out" of the
settings file belongs to its "folder": when the command line or the environment
names another folder, that one keeps its own plan.`

// settings are what a subcommand runs with.
type settings struct {
	folder   string
	out      string // where the plan is kept
	outGiven bool   // on the command line
	width    int    // 0: that of the terminal
	colour   string // auto, always, never
	work     int64  // 0: the planner's own
}

// settingKeys are the keys of the settings file; the environment has the same in
// capitals, after RIPEBY_.
func settingKeys() []string { return []string{"folder", "out", "width", "colour", "work"} }

// settings gathers the settings of a subcommand from its flags, the environment
// and the settings file. Flags that the subcommand lacks are simply not set there.
func (p *program) settings(flags *pflag.FlagSet, demo bool) (*settings, error) {
	g := gathered{viper: viper.New(), flags: flags, env: p.env, file: p.settingsFile()}
	if err := g.read(); err != nil {
		return nil, err
	}
	s := &settings{folder: g.text("folder", "."), colour: g.text("colour", "auto")}
	s.width = int(g.number("width", 0, maxWidth))
	s.work = g.number("work", 0, maxWork)
	if g.err == nil && !slices.Contains([]string{"auto", "always", "never"}, s.colour) {
		g.err = wrong("%s is %q; want auto, always or never", g.source("colour"), s.colour)
	}
	s.out = g.text("out", "")
	s.outGiven = flags.Changed("out")
	switch {
	case demo && flags.Changed("folder"):
		return nil, wrong("--demo and -C cannot both be given: --demo plans the example kitchen")
	case demo && !s.outGiven:
		s.out = demoOut
	case s.out == "" || g.fromFile("out") && !g.fromFile("folder"):
		s.out = filepath.Join(s.folder, "plan")
	}
	return s, g.err
}

// Limits of settings: beyond them lies a slip of the finger.
const (
	maxWidth = 1000
	maxWork  = 1 << 60
)

// settingsFile is the path of the settings file, "" when there is no place for one.
func (p *program) settingsFile() string {
	for _, place := range [][2]string{{"XDG_CONFIG_HOME", ""}, {"APPDATA", ""}, {"HOME", ".config"}} {
		if base := p.env(place[0]); base != "" {
			return filepath.Join(base, place[1], "ripeby", "settings.yaml")
		}
	}
	return ""
}

// gathered holds the settings of all sources; it keeps the first error.
type gathered struct {
	viper *viper.Viper
	flags *pflag.FlagSet
	env   func(string) string
	file  string
	err   error
}

// read fills in the file, then the environment over it, then the flags.
func (g *gathered) read() error {
	if err := g.readFile(); err != nil {
		return err
	}
	given := map[string]any{}
	for _, key := range settingKeys() {
		if value := g.env(envName(key)); value != "" {
			given[key] = value
		}
		if flag := g.flags.Lookup(key); flag != nil {
			if err := g.viper.BindPFlag(key, flag); err != nil {
				return other("option --%s: %w", key, err)
			}
		}
	}
	return g.viper.MergeConfigMap(given)
}

func (g *gathered) readFile() error {
	if g.file == "" {
		return nil
	}
	text, err := config.ReadRegular(g.file, config.MaxFileBytes)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err == nil {
		g.viper.SetConfigType("yaml")
		err = g.viper.ReadConfig(bytes.NewReader(text))
	}
	if err != nil {
		return wrong("the settings file %s cannot be read: %w", g.file, config.WithoutPath(err))
	}
	for _, key := range g.viper.AllKeys() {
		if !slices.Contains(settingKeys(), key) {
			return wrong("the settings file %s has the key %q; it may have %s", g.file, key, strings.Join(settingKeys(), ", "))
		}
	}
	return nil
}

func envName(key string) string { return "RIPEBY_" + strings.ToUpper(key) }

// fromFile reports whether the settings file is the first to give a setting; when
// it gives no folder, the current one is meant as good as written there.
func (g *gathered) fromFile(key string) bool {
	return !g.flags.Changed(key) && g.env(envName(key)) == ""
}

// source names where a setting comes from.
func (g *gathered) source(key string) string {
	if g.flags.Changed(key) {
		return "--" + key
	}
	if g.env(envName(key)) != "" {
		return envName(key)
	}
	return key + " in " + g.file
}

// text reads a setting as it was written.
func (g *gathered) text(key, standard string) string {
	if !g.viper.IsSet(key) {
		return standard
	}
	switch value := g.viper.Get(key).(type) {
	case nil:
		return standard
	case string, int, int64, bool, float64:
		return fmt.Sprint(value)
	}
	if g.err == nil {
		g.err = wrong("%s is a list or a group of keys; want one value", g.source(key))
	}
	return standard
}

// number reads a whole number from 0 to most.
func (g *gathered) number(key string, standard, most int64) int64 {
	text := g.text(key, strconv.FormatInt(standard, 10))
	n, err := strconv.ParseInt(text, 10, 64)
	if g.err == nil && (err != nil || n < 0 || n > most) {
		g.err = wrong("%s is %q; want a whole number from 0 to %d", g.source(key), text, most)
	}
	return n
}
