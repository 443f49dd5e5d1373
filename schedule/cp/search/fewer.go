package search

import (
	"cmp"
	"slices"

	"ripeby/schedule/cp/bound"
	"ripeby/schedule/cp/problem"
)

// Where jobs of one family that follow one another serve what fewer could serve, or as
// many of a smaller amount, they are taken out, and those few are placed in their
// stead; jobs near them make room.

const (
	fewerMost  = 7  // so many jobs that follow one another are compared at the most
	fewerTries = 12 // so many times others are picked before a step gives up
	roomMost   = 3  // so many other jobs make room at the most
)

// fewer tries such a change; false when none was found that would gain anything.
func (im *improver) fewer() bool {
	s := im.s
	list := slices.DeleteFunc(im.inFocus(s.Jobs), func(j *problem.Job) bool { return j.Begun >= 0 })
	if len(list) < 2 {
		return false
	}
	for range fewerTries {
		out := im.following(list, 2+im.pick(fewerMost-1))
		var now problem.Cost
		for _, j := range out {
			now = now.Plus(problem.Cost{Jobs: 1, Amount: s.ModeOf(j).Amount})
			s.Remove(j)
		}
		c := bound.CoverLeft(&s.Schedule, out[0].Family, problem.Always())
		s.Spent += int64(len(c.Units)) * roundWork
		reach, _ := c.FirstPass()
		if !reach[len(reach)-1].Less(now) {
			for _, j := range out {
				s.Add(j)
			}
			continue
		}
		room := im.makeRoom(out)
		im.placeAll(out[0].Family, c.Sample(im.pick))
		for _, j := range room {
			if k, ok := im.placeSomewhere(j); ok {
				s.Add(k)
			}
		}
		im.fillAll([]int{out[0].Family})
		return true
	}
	return false
}

// following are jobs of one family that follow one another, in order of readiness.
func (im *improver) following(list []*problem.Job, size int) []*problem.Job {
	family := list[im.pick(len(list))].Family
	var same []*problem.Job
	for _, j := range list {
		if j.Family == family {
			same = append(same, j)
		}
	}
	slices.SortStableFunc(same, func(a, b *problem.Job) int { return cmp.Compare(a.Ready, b.Ready) })
	size = min(size, len(same))
	at := im.pick(len(same) - size + 1)
	return same[at : at+size]
}

// makeRoom takes out some other new jobs near those taken out.
func (im *improver) makeRoom(out []*problem.Job) []*problem.Job {
	s := im.s
	mid := out[len(out)/2]
	t := mid.Ready
	if im.pick(2) == 0 {
		t = mid.Starts[0]
	}
	var room []*problem.Job
	for _, j := range im.near(t, 2*roomMost) {
		if j.Begun < 0 && len(room) < roomMost && im.pick(2) == 0 {
			room = append(room, j)
			s.Remove(j)
		}
	}
	return room
}
