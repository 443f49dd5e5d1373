package chance

import (
	"cmp"
	"math/rand/v2"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// DefaultTimes is how many times a plan is counted through, and DefaultSeed what the draws are from, where nobody
// says otherwise.
const (
	DefaultTimes = 2000
	DefaultSeed  = 1
)

// Options say how to count.
type Options struct {
	Times    int     // at least 1
	Seed     uint64  // the same gives the same answer
	LostRate float64 // the chance that a batch is lost
	// Helps says of which wants it is also sought what would help; nil: of none.
	Helps func(*Want) bool
}

// Breaks is what most often fails a want first.
type Breaks struct {
	Batch, Stage string // "" for nothing
	Why          Why
	Times        int // of the times in which the want was not met
}

// Want is one want of a target, and how often it was met.
type Want struct {
	Target, Cheese string
	By             resources.Moment
	Wanted         int
	Promised       bool
	Short          int // pieces that the plan itself does not have for it: then it is never met
	Hits, Times    int
	Low, High      float64 // the 95 % band of the share
	Breaks         Breaks
	Remedy         *Remedy // nil for none that helps
}

// Share is how often it was met.
func (w *Want) Share() float64 { return float64(w.Hits) / float64(w.Times) }

// Answer is what came of counting a plan through.
type Answer struct {
	Wants     []Want // in the plan's order
	Scattered int    // holds that scatter; 0: every time is like the other but for losses
	Untried   int    // holds that fail a want, and for which it was not tried what would help
	Times     int
	Seed      uint64
}

// Of counts a plan through. The plan begins at its start; begun stages stand as they are.
func Of(p *schedule.Problem, plan *schedule.Plan, opt Options) Answer {
	s := stateOf(p, plan)
	all := s.drawn(opt)
	a := Answer{Scattered: s.draws(), Times: opt.Times, Seed: opt.Seed}
	a.Wants = s.count(all, opt)
	s.remedies(&a, all, opt)
	return a
}

// drawn are the draws of every time through.
func (s *state) drawn(opt Options) []draws {
	all := make([]draws, opt.Times)
	n := s.draws()
	for i := range all {
		random := rand.New(rand.NewPCG(opt.Seed, uint64(i)))
		all[i] = draws{make([]float64, n), make([]float64, len(s.batches))}
		for k := range all[i].holds {
			all[i].holds[k] = random.NormFloat64()
		}
		for k := range all[i].lost {
			all[i].lost[k] = random.Float64()
		}
	}
	return all
}

// cause is what failed a want.
type cause struct {
	batch int
	blame
}

// count counts the plan through with all draws.
func (s *state) count(all []draws, opt Options) []Want {
	out := make([]Want, len(s.wants))
	causes := make([]map[cause]int, len(s.wants))
	r := s.runner()
	for i := range all {
		w := r.run(all[i], opt.LostRate)
		for k := range s.wants {
			of := &s.wants[k]
			late := s.failed(of, w)
			switch {
			case late < 0 && of.met == of.wanted:
				out[k].Hits++
			case late >= 0:
				if causes[k] == nil {
					causes[k] = map[cause]int{}
				}
				causes[k][cause{late, w.blame[late]}]++
			}
		}
	}
	for k := range out {
		o, of := &out[k], &s.wants[k]
		o.Target, o.Cheese, o.By, o.Wanted, o.Promised, o.Short, o.Times = of.target, of.cheese, of.by, of.wanted, of.promised, of.wanted-of.met, len(all)
		o.Low, o.High = Wilson(o.Hits, o.Times)
		o.Breaks = s.breaks(causes[k])
	}
	return out
}

// failed is the batch that comes too late for a want, of several the one that was late first in the plan; -1 for none.
func (s *state) failed(of *want, w *went) int {
	for _, b := range of.of {
		if w.packed[b] > of.ready {
			return b
		}
	}
	return -1
}

// breaks is the most frequent cause; of several the first in the plan.
func (s *state) breaks(of map[cause]int) (b Breaks) {
	keys := make([]cause, 0, len(of))
	for c := range of {
		keys = append(keys, c)
	}
	slices.SortFunc(keys, func(x, y cause) int {
		return cmp.Or(cmp.Compare(of[y], of[x]), cmp.Compare(x.batch, y.batch), cmp.Compare(x.stage, y.stage), cmp.Compare(x.why, y.why))
	})
	if len(keys) == 0 {
		return b
	}
	c := keys[0]
	batch := &s.batches[c.batch]
	return Breaks{batch.id, batch.stages[c.stage].name, c.why, of[c]}
}
