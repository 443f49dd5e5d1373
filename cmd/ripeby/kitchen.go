package main

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"time"

	"ripeby/cmd/ripeby/demo"
	"ripeby/config"
	"ripeby/schedule"
)

// demoOut is where the demo's plan is kept: in the current folder, since the demo
// has no kitchen folder to keep it in.
const demoOut = "ripeby-demo"

// kitchen says which kitchen a subcommand reads.
type kitchen struct {
	folder string
	demo   bool
}

// load reads the kitchen as of a moment; "" is now, or the demo's own moment.
// What is wrong with the folder or the moment is a failure with exit code 2 that
// lists every fault.
func (k kitchen) load(from string, now time.Time) (*schedule.Problem, error) {
	if k.demo {
		if from == "" {
			from = demo.From
		}
		p, err := config.LoadFS(demo.Files(), config.Options{From: from, Now: now})
		if err != nil {
			return nil, &failure{exitWrong, err}
		}
		return p, nil
	}
	p, err := config.Load(k.folder, config.Options{From: from, Now: now})
	if err == nil {
		return p, nil
	}
	var faults config.Faults
	if errors.As(err, &faults) && !aboutFrom(faults) {
		err = fmt.Errorf("%s in the kitchen folder %s; nothing was written\n%w", schedule.Counted(len(faults), "error"), k.folder, err)
	}
	if slices.ContainsFunc(faults, func(f config.Fault) bool { return f.File == "kitchen.yaml" && f.Missing }) {
		err = fmt.Errorf("%w\nIf %s is not your kitchen folder, give that with -C; ripeby new my-kitchen begins one", err, k.folder)
	}
	if errors.Is(err, fs.ErrNotExist) {
		err = fmt.Errorf("%w; give another with -C, or begin one with: ripeby new %s", err, shellWord(k.folder))
	}
	return nil, &failure{exitWrong, err}
}

// aboutFrom reports whether the command line alone is at fault.
func aboutFrom(faults config.Faults) bool {
	return !slices.ContainsFunc(faults, func(f config.Fault) bool { return f.File != "--from" })
}

// as repeats the options that choose this kitchen, for messages that say what to
// run.
func (k kitchen) as() string {
	switch {
	case k.demo:
		return " --demo"
	case k.folder == ".":
		return ""
	}
	return " -C " + shellWord(k.folder)
}
