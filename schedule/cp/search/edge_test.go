package search

import (
	"math/rand/v2"
	"testing"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/tiny"
)

// While jobs under way are taken out and built again, what they are doing now is
// still being done: worker 1 is at work until 1.
func TestRebuildingKeepsWorkThatIsGoingOn(t *testing.T) {
	wait := problem.Mode{Amount: 1, Units: 1, Acts: []problem.Activity{{Lag: problem.Lag{Least: 2, Most: 8, Cost: make([]int32, 7)}}, {Work: 2, Workers: []int{0, 1}, Lag: problem.Lag{Most: 30}}}}
	work := problem.Mode{Amount: 1, Units: 1, Acts: []problem.Activity{{Work: 2, Workers: []int{1}, Lag: problem.Lag{Most: 30}}}}
	m := &problem.Model{Step: 2, Horizon: 20, Workers: []problem.Worker{{Windows: []problem.Span{{From: 1, Until: 20}}}, {Windows: []problem.Span{{From: 0, Until: 20}}}},
		Families: []problem.Family{{Keeps: 4, Supply: -1, Modes: []problem.Mode{work}}, {Keeps: 4, Supply: -1, Modes: []problem.Mode{wait}}},
		Demands:  []problem.Demand{{Due: 2, Ahead: 2, Units: 2, Value: 3}},
		Begun: []problem.Begun{{Family: 1, Mode: wait, Starts: []int{-2}, Workers: []int{-1}},
			{Family: 0, Mode: work, Starts: []int{-1}, Workers: []int{1}}}}
	s := NewPlan(m)
	s.SettleHomes()
	o, _ := s.chooseOpening()
	im := s.build(o, 0)
	for seed := uint64(0); seed < 20; seed++ {
		im.rng = rand.New(rand.NewPCG(seed, 1))
		before := append([]*problem.Job(nil), im.s.Jobs...)
		for _, j := range before {
			im.s.Remove(j)
		}
		if ok := im.rebuild(before); !ok {
			im.restore(before)
			continue
		}
		if f := tiny.FaultOf(m, im.s.Result(problem.Cost{})); f != "" {
			t.Fatal(f)
		}
	}
}
