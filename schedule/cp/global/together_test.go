package global_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/kernel/oracle"
	"ripeby/schedule/testrun"
)

// stairs lets in so many of the second class for each number of the first, never more for more.
type stairs []int32

func (c stairs) Over(n []int32) bool { return int(n[0]) >= len(c) || n[1] > c[n[0]] }

func (m *thing) together(r *rand.Rand, n int) {
	var tasks []global.Task
	var class []int
	for range n {
		tasks, class = append(tasks, m.task(r)), append(class, r.IntN(2))
	}
	var crowd stairs
	for most := int32(r.IntN(6)); len(crowd) < 5 && most >= 0; most -= int32(r.IntN(3)) {
		crowd = append(crowd, most)
	}
	m.Add(oracle.Rule{
		Text: fmt.Sprintf("tasks %+v of classes %v within %v", tasks, class, crowd),
		Add:  func(s *kernel.Solver) { global.AddTogether(s, tasks, class, 2, crowd) },
		Holds: func(v []int32) bool {
			for at := int32(earliest); at < latest; at++ {
				var counts [2]int32
				some := false
				for i, t := range tasks {
					if on(t, v, at) {
						counts[class[i]] += max(0, entry(t.Demand.Table, v[t.Demand.By]))
						some = some || entry(t.Demand.Table, v[t.Demand.By]) > 0
					}
				}
				if some && crowd.Over(counts[:]) {
					return false
				}
			}
			return true
		},
	})
}

// TestTogether: optional tasks of two classes that leave each other room in steps.
func TestTogether(t *testing.T) {
	var seen oracle.Tally
	for seed := range uint64(testrun.Rounds(3000, 9000)) {
		r := rand.New(rand.NewPCG(seed, 21))
		m := someThing(r, 2+r.IntN(2), 6)
		m.together(r, 2+r.IntN(4))
		m.Clauses(r, 3)
		m.Check(t, seed, r, &seen)
	}
	seen.Enough(t, testrun.Rounds(500, 1500))
}
