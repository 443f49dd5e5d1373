package statement

import (
	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
)

// addCovers states how many jobs the units due in every stretch of time need at
// the least, where none of them is short: each job serves so many at most, and only
// units that are due within the family's keeping time. The sums alone would leave
// this to be found out by trying.
func (k *Statement) addCovers() {
	for f := range k.Model.Families {
		if len(k.Model.Families[f].Modes) > 0 && len(problem.DuesOf(k.Model, f)) > 0 {
			k.coverFamily(f)
		}
	}
}

// A family whose covers would take more than coversMost tries, so many of which are one unit of
// counted work, has none: they only spare trying.
const (
	coversMost   = 50_000_000
	triesPerUnit = 64
)

// coverFamily adds the covers of one family.
func (k *Statement) coverFamily(f int) {
	fam := &k.Model.Families[f]
	most := fam.Modes[len(fam.Modes)-1].Units
	var dues []int // of every unit, in order
	var of []int
	for _, d := range k.Schedule.Prep.ByDue[f] {
		for range k.Model.Demands[d].Units {
			dues, of = append(dues, k.Model.Demands[d].Due), append(of, d)
		}
	}
	sums := k.addTally(f)
	k.jobs = append(k.jobs, global.Term{View: sums[len(sums)-1].jobs.Up(), Times: 1})
	free := k.Model.FreeUnits(f)
	tries := int64(len(sums)) * int64(len(dues)) * int64(min(free, len(dues))+1) * int64(most)
	if tries > coversMost {
		return
	}
	k.Schedule.Spent += tries / triesPerUnit
	for a := range dues {
		if a > 0 && dues[a] == dues[a-1] {
			continue
		}
		need := problem.JobsFor(dues[a:], fam.Keeps, most, free)
		for b := a; b < len(dues); b++ {
			if b+1 < len(dues) && dues[b+1] == dues[b] {
				continue
			}
			if n := need[b-a]; n > 0 {
				k.addCover(f, sums, of[a:b+1], n)
			}
		}
	}
}

// tally counts what is delivered last up to a due moment of a family.
type tally struct {
	due  int
	jobs kernel.Var
}

// addTally adds, for every due moment of a family, how many jobs deliver last by
// then. A stretch of time is then a difference of two.
func (k *Statement) addTally(f int) []tally {
	before := tally{jobs: k.Zero}
	var out []tally
	for _, due := range problem.DuesOf(k.Model, f) {
		var sum []global.Term
		most := k.Kernel.Max(before.jobs)
		for _, sl := range k.Slots {
			if sl.Begun < 0 && sl.Family == f && sl.Due == due {
				sum = append(sum, global.Term{View: sl.Here.Up(), Times: 1})
				most++
			}
		}
		for _, o := range k.Over {
			if o.Family == f && o.Due == due {
				sum = append(sum, global.Term{View: o.Jobs.Up(), Times: 1})
				most += k.Kernel.Max(o.Jobs)
			}
		}
		now := tally{due, k.Kernel.NewVar(0, most)}
		k.Kernel.AddArc(before.jobs, now.jobs, 0)
		k.equal(append(sum, global.Term{View: before.jobs.Up(), Times: 1}), now.jobs)
		out = append(out, now)
		before = now
	}
	return out
}

// equal states that a variable is the sum of terms.
func (k *Statement) equal(terms []global.Term, x kernel.Var) {
	all := append(append([]global.Term(nil), terms...), global.Term{View: x.Down(), Times: 1})
	global.AddLinear(k.Kernel, all, 0)
	for i := range all {
		all[i].View = all[i].View.Opposite()
	}
	global.AddLinear(k.Kernel, all, 0)
}

// addCover states that so many jobs serve the units of some demands, in due order,
// unless one of them is short. Who serves one of them delivers last no sooner than
// the first is due, and no later than the last keeps.
func (k *Statement) addCover(f int, sums []tally, of []int, n int) {
	met := k.Kernel.NewVar(0, 1).Ge(1)
	clause := []kernel.Lit{met}
	for i, d := range of {
		if i == 0 || of[i-1] != d {
			clause = append(clause, k.Short[d].Ge(1))
		}
	}
	k.Kernel.AddClause(clause...)
	first, last := k.Model.Demands[of[0]].Due, k.Model.Demands[of[len(of)-1]].Due+k.Model.Families[f].Keeps
	lo, hi := k.Zero, k.Zero
	for _, t := range sums {
		if t.due < first {
			lo = t.jobs
		}
		if t.due <= last {
			hi = t.jobs
		}
	}
	k.Kernel.AddArcIf(met, lo, hi, int32(n))
}
