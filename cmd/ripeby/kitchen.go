package main

import (
	"errors"
	"fmt"
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
	if errors.As(err, &faults) {
		err = fmt.Errorf("%s in the kitchen folder %s; nothing was written\n%w", counted(len(faults), "error"), k.folder, err)
	}
	return nil, &failure{exitWrong, err}
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
