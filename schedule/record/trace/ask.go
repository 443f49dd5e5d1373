package trace

import (
	"cmp"
	"regexp"
	"slices"

	"ripeby/resources"
	"ripeby/schedule/record"
)

// Unknown is a word that means nothing here.
type Unknown struct {
	Word  string
	Among []string // all that would mean something, those made last first
}

// Error says so.
func (u *Unknown) Error() string { return "nothing is known of " + u.Word }

// Ask answers words: ids or lots, days (2027-03-12), milk supplies, targets and businesses. A day
// after a supply, a target or a business is its. The error is an [*Unknown].
func (a *Archive) Ask(words []string) ([]*Answer, error) {
	var out []*Answer
	for i := 0; i < len(words); i++ {
		word := words[i]
		if s := a.named[word]; s != nil {
			out = append(out, &Answer{Asked: word, Kind: OfBatch, Batches: []*Batch{a.batch(s)}})
			continue
		}
		if day, err := resources.ParseDate(word); err == nil {
			out = append(out, a.day(word, day))
			continue
		}
		var day resources.Date
		if i+1 < len(words) {
			if d, err := resources.ParseDate(words[i+1]); err == nil {
				day = d
			}
		}
		answer := a.other(word, day)
		if answer == nil {
			return nil, &Unknown{Word: word, Among: append(a.Names(), a.Others()...)}
		}
		if !anyDay(day) {
			answer.Asked += " " + words[i+1]
			i++
		}
		out = append(out, answer)
	}
	return out, nil
}

// anyDay reports whether none was asked for.
func anyDay(d resources.Date) bool { return d == resources.Date{} }

// other answers a word that is neither a batch nor a day; nil for none.
func (a *Archive) other(word string, day resources.Date) *Answer {
	onDay := func(m resources.Moment) bool { return anyDay(day) || m.DateIn(a.zone) == day }
	supply := func(c collection) bool { return c.supply == word && (anyDay(day) || c.day == day) }
	if slices.Contains(a.supplies(), word) {
		return &Answer{Asked: word, Kind: OfMilk, Collections: a.collections(supply)}
	}
	if slices.Contains(a.targetNames(), word) {
		out := &Answer{Asked: word, Kind: OfTarget}
		a.pass(out, func(k passing, l *Leaving) bool { return isOf(k.target, word) && onDay(l.By) })
		out.Entries = a.entries(func(e *record.Entry) bool {
			return e.Subject.Kind == record.OfTarget && (isOf(e.Subject.Full(), word) || e.Subject.Name == word) && a.on(e, day)
		})
		return out
	}
	if slices.Contains(a.businesses(), word) {
		out := &Answer{Asked: word, Kind: OfBusiness}
		a.pass(out, func(_ passing, l *Leaving) bool { return l.To == word && onDay(l.By) })
		out.Entries = a.entries(func(e *record.Entry) bool { return e.Target.To == word && a.on(e, day) })
		return out
	}
	return nil
}

// on reports whether an entry about a target is of a day; any where none is asked.
func (a *Archive) on(e *record.Entry, day resources.Date) bool {
	return anyDay(day) || e.At.DateIn(a.zone) == day || e.Subject.Day == day
}

// day answers a day: what was collected, made and left on it.
func (a *Archive) day(word string, day resources.Date) *Answer {
	out := &Answer{Asked: word, Kind: OfDay, Collections: a.collections(func(c collection) bool { return c.day == day })}
	for _, s := range a.sources {
		if s.made != 0 && s.made.DateIn(a.zone) == day {
			out.Made = append(out.Made, a.neighbour(s))
		}
	}
	a.pass(out, func(_ passing, l *Leaving) bool { return l.By.DateIn(a.zone) == day })
	return out
}

// pass adds what left, in the order in which it did.
func (a *Archive) pass(out *Answer, fits func(passing, *Leaving) bool) {
	for k, h := range a.targets {
		for i := range h.shares {
			s := &h.shares[i]
			if l := h.leaving(k.target, s); fits(k, &l) {
				out.Passed = append(out.Passed, Passed{a.neighbour(s.source), l})
			}
		}
		if h.loose > 0 {
			l := Leaving{Target: k.target, By: h.took.At, To: h.took.Target.To}
			if fits(k, &l) {
				out.Loose = append(out.Loose, h.took)
			}
		}
	}
	slices.SortFunc(out.Passed, func(x, y Passed) int {
		return cmp.Or(cmp.Compare(x.By, y.By), cmp.Compare(x.Target, y.Target), cmp.Compare(x.Batch.Made, y.Batch.Made), cmp.Compare(x.Batch.ID, y.Batch.ID),
			cmp.Compare(x.Planned, y.Planned), cmp.Compare(x.Pieces, y.Pieces))
	})
	out.Loose = a.entries(func(e *record.Entry) bool { return slices.Contains(out.Loose, e) }) // in the order of writing
}

// entries are those of the record that fit, struck ones too, by moment.
func (a *Archive) entries(fits func(*record.Entry) bool) record.Entries {
	return a.book.All().With(fits).ByTime()
}

// dated is the end of the name of a target that repeats.
var dated = regexp.MustCompile(` \d{4}-\d{2}-\d{2}$`)

// isOf reports whether a target has a name, with its date or without.
func isOf(target, name string) bool {
	return target == name || dated.ReplaceAllString(target, "") == name
}

// Others are all words that Ask knows beside the names of batches: supplies, targets and
// businesses.
func (a *Archive) Others() []string {
	return append(append(a.supplies(), a.targetNames()...), a.businesses()...)
}

func (a *Archive) supplies() (names []string) {
	for _, s := range a.sources {
		if c, _, ok := a.milkOf(s); ok {
			names = append(names, c.supply)
		}
	}
	for c := range a.milk {
		names = append(names, c.supply)
	}
	return once(names)
}

// targetNames are those of all targets, of repeated ones with their dates and without.
func (a *Archive) targetNames() (names []string) {
	for k := range a.targets {
		names = append(names, k.target, dated.ReplaceAllString(k.target, ""))
	}
	for _, e := range a.book.All() {
		if e.Subject.Kind == record.OfTarget { // struck ones too
			names = append(names, e.Subject.Full(), e.Subject.Name)
		}
	}
	return once(names)
}

func (a *Archive) businesses() (names []string) {
	for _, e := range a.book.All() {
		if e.Target.To != "" {
			names = append(names, e.Target.To)
		}
	}
	return once(names)
}

// once sorts a list and leaves out what stands in it twice.
func once(list []string) []string {
	slices.Sort(list)
	return slices.Compact(list)
}
