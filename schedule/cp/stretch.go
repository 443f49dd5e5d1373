package cp

import (
	"cmp"
	"slices"
)

// A long plan is improved a stretch at a time.
//
// What one neighbourhood changes concerns the jobs near it in time, so with many
// jobs most of what is tried and compared has nothing to do with the change. Jobs are
// taken in order of readiness, so many to a stretch, half of them again in the next:
//
//	jobs      1 2 3 4 5 6 7 8 9 …
//	stretches └──────┘
//	              └──────┘
//	                  └──────┘
//
// While a stretch is improved, everything outside it stays as it is. Each gets the
// same work, then all again with more; where something is short comes first.

const (
	wholeJobs    = 32        // up to so many jobs a plan is one stretch
	stretchJobs  = 14        // jobs of a stretch in the first passes
	stretchSizes = 3         // then twice as many, four times as many, and again
	stretchWork  = 2_000_000 // counted work of a stretch in the first pass over all
	shortShare   = 8         // a stretch with something short gets so many times as much at the most
	passes       = 4         // passes of a turn
	stretchMost  = 64        // a later pass gives it so many times as much at the most
)

// everywhere is a stretch without ends.
func everywhere() Span { return Span{-Infinite, Infinite} }

// whole reports whether the plan is one stretch.
func (im *improver) whole() bool { return im.focus == everywhere() }

// improve goes on for as long as more says.
func (im *improver) improve(more func() bool, report func()) {
	turn := func() {
		if im.round() {
			report()
		}
	}
	if len(im.s.jobs) <= wholeJobs {
		for more() {
			turn()
		}
		return
	}
	for pass, times := 0, int64(1); more(); pass++ {
		spans, work := im.stretches(pass)
		for _, span := range spans {
			im.focus = span
			im.start()
			end := im.s.spent + work*times
			for more() && im.s.spent < end {
				turn()
			}
			im.finish()
		}
		if pass%passes == passes-1 {
			times = min(times*2, stretchMost)
		}
	}
	im.focus = everywhere()
}

// stretches are the stretches of a pass and the work for each: but for the last of a
// turn those in which something is short, if any is, which then share the work.
func (im *improver) stretches(pass int) (spans []Span, work int64) {
	turn := pass / passes
	if pass%passes != passes-1 {
		var short []Span
		all := im.cut(stretchJobs<<(pass%2), pass%4)
		for _, span := range all {
			if im.shortIn(span) {
				short = append(short, span)
			}
		}
		if len(short) > 0 {
			return short, stretchWork * min(int64(len(all)/len(short)), shortShare)
		}
	}
	longer := pass % stretchSizes
	return im.cut(stretchJobs<<longer, (pass+turn)%4), stretchWork << longer
}

// cut cuts the plan into stretches of so many jobs, the first one shorter by so many
// eighths.
func (im *improver) cut(size, eighths int) (all []Span) {
	ready := make([]int, 0, len(im.s.jobs))
	for _, j := range im.movable(im.s.jobs) {
		ready = append(ready, j.Ready)
	}
	slices.Sort(ready)
	for at := -eighths * size / 8; ; at += size / 2 {
		end := at + size
		span := everywhere()
		if at > 0 {
			span.From = ready[at]
		}
		if end < len(ready) {
			span.Until = ready[end]
		}
		all = append(all, span)
		if end >= len(ready) {
			return all
		}
	}
}

// shortIn reports whether a demand due in a stretch is short.
func (im *improver) shortIn(span Span) bool {
	for d, n := range im.s.unmet {
		if n > 0 && im.s.m.Demands[d].Value > 0 && span.holds(im.s.m.Demands[d].Due) {
			return true
		}
	}
	return false
}

func (a Span) holds(t int) bool { return a.From <= t && t < a.Until }

// inFocus are the jobs that may be changed: those that begin or are ready in the
// stretch.
func (im *improver) inFocus(list []*Job) []*Job {
	out := im.movable(list)
	if im.whole() {
		return out
	}
	return slices.DeleteFunc(out, func(j *Job) bool { return !im.focus.holds(j.Ready) && !im.focus.holds(j.Starts[0]) })
}

// byDistance puts jobs in order of how near a moment they are: their readiness, or
// in a stretch also their first start.
func (im *improver) byDistance(list []*Job, t int) {
	dist := func(j *Job) int {
		d := max(j.Ready-t, t-j.Ready)
		if !im.whole() {
			d = min(d, max(j.Starts[0]-t, t-j.Starts[0]))
		}
		return d
	}
	slices.SortStableFunc(list, func(a, b *Job) int { return cmp.Compare(dist(a), dist(b)) })
}
