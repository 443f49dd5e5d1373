package main

import (
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"ripeby/calendar/warmth"
	"ripeby/resources"
	"ripeby/schedule/readings"
)

// readings is ripeby cold --readings. What cannot be read is told apart, and all else holds.
func (p *program) readings(s *settings, flags *pflag.FlagSet, opt coldOptions) error {
	for _, name := range []string{"box", "svg", "csv", "count", "until"} {
		if flags.Changed(name) {
			return wrong("--readings says how warm it was, and --%s is about something else; give one of them", name)
		}
	}
	k := kitchen{folder: s.folder, demo: opt.demo}
	problem, err := k.load("", p.now())
	if err != nil {
		return err
	}
	if places := readings.Places(&problem.Kitchen); opt.shelf != "" && !slices.Contains(places, opt.shelf) {
		return wrong("--shelf is %q; with --readings it is one of %s", opt.shelf, strings.Join(places, ", "))
	}
	at := resources.MomentOf(p.now())
	if opt.at != "" {
		if at, err = resources.ParseStart(opt.at, problem.Kitchen.Zone); err != nil {
			return wrong("--at: %w", err)
		}
	}
	shown, faults := warmth.Show(problem, warmthOf(k), opt.shelf, at)
	if len(faults) > 0 {
		p.say(strings.Join(faults, "\n"))
	}
	l := p.look(s)
	return warmth.Write(p.out, shown, l.width, l.colour)
}
