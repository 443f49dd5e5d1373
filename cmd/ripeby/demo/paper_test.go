package demo_test

import (
	"fmt"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// The paper method: what a maker does with a calendar and a pencil. Each want
// gets one batch just large enough for it (or several of the largest), packed at
// the last moment and counted back from there with every hold at its best. It
// looks at no other batch, nobody's hours and no milk day.

// pencil is one batch counted back: starts[i] and works[i] are of stage i, and
// left is when its last stage ends.
type pencil struct {
	label  string
	recipe *schedule.Recipe
	litres resources.Millilitres
	pieces int
	starts []resources.Moment
	works  []resources.Minutes
	left   resources.Moment
}

// countBack gives the paper batches of every want, in the order written. A batch
// that would have to begin before the planning start is left out: its want is
// served by what is begun or in stock.
func countBack(p *schedule.Problem) []pencil {
	var all []pencil
	for _, t := range p.Targets {
		for _, w := range t.Wants {
			for n := w.Pieces; n > 0; {
				b, serves := pencilBatch(p, t, w.Cheese, n)
				n -= serves
				if b.starts[0] >= p.From {
					all = append(all, b)
				}
			}
		}
	}
	return all
}

// pencilBatch counts one batch back from a target and says how many of the wanted
// pieces it serves.
func pencilBatch(p *schedule.Problem, t schedule.Target, cheese string, want int) (pencil, int) {
	r := p.Recipe(cheese)
	b := pencil{label: cheese + " for " + t.Name, recipe: r, litres: r.Batch.Least, left: t.By}
	for b.litres+r.Batch.Step <= r.Batch.Most && made(r, b.litres)-r.Spare < want {
		b.litres += r.Batch.Step
	}
	b.pieces = made(r, b.litres)
	n := len(r.Stages)
	b.starts, b.works = make([]resources.Moment, n), make([]resources.Minutes, n)
	at := t.By.Add(-t.Packed)
	for i := n - 1; i >= 0; i-- {
		if s := r.Stages[i]; i < n-1 && s.Hold != nil {
			at = at.Add(-s.Hold.Best)
		}
		b.works[i] = handsOn(r.Stages[i].Hands, b.litres, b.pieces, p.Kitchen.Step)
		at = at.Add(-b.works[i])
		b.starts[i] = at
	}
	return b, min(want, b.pieces-r.Spare)
}

func made(r *schedule.Recipe, l resources.Millilitres) int {
	return int(l) * r.Yield.Pieces / int(r.Yield.From)
}

// handsOn is the length of a piece of work, rounded up to the grid.
func handsOn(h *schedule.Hands, l resources.Millilitres, pieces int, step resources.Minutes) resources.Minutes {
	if h == nil {
		return 0
	}
	thousandths := int64(h.Fixed) + int64(h.PerLitre)*int64(l)/1000 + int64(h.PerPiece)*int64(pieces)
	grid := int64(step) * 1000
	return resources.Minutes((thousandths + grid - 1) / grid * int64(step))
}

// busy is how much of a thing a pencilled batch takes, from when until when.
type busy struct {
	span   resources.Span
	amount int
	label  string
}

// peak finds the first moment at which more is taken than there is.
func peak(all []busy, limit func(resources.Moment) int) (resources.Moment, int, bool) {
	for _, a := range all {
		at, sum := a.span.From, 0
		for _, b := range all {
			if b.span.From <= at && at < b.span.Until {
				sum += b.amount
			}
		}
		if sum > limit(at) {
			return at, sum, true
		}
	}
	return 0, 0, false
}

// usesKind says whether a stage occupies a kind of thing, and under what name.
func usesKind(s schedule.Stage, kind schedule.UseKind) bool {
	for _, u := range s.Uses {
		if u.Kind == kind {
			return true
		}
	}
	return false
}

// during gives the stretches over which a batch occupies a kind of thing: from
// the start of a run of stages until the work of the stage after it is done.
func (b pencil) during(kind schedule.UseKind) []resources.Span {
	var spans []resources.Span
	for i := 0; i < len(b.starts); i++ {
		if !usesKind(b.recipe.Stages[i], kind) {
			continue
		}
		j := i
		for j+1 < len(b.starts) && usesKind(b.recipe.Stages[j+1], kind) {
			j++
		}
		until := b.left
		if j+1 < len(b.starts) {
			until = b.starts[j+1].Add(b.works[j+1])
		}
		spans = append(spans, resources.Span{From: b.starts[i], Until: until})
		i = j
	}
	return spans
}

// awake says whether somebody's weekly hours cover the piece of work and nobody
// is away: the least that a piece of work needs.
func awake(k *resources.Kitchen, from resources.Moment, work resources.Minutes) bool {
	start, end := from.In(k.Zone), from.Add(work).In(k.Zone)
	for _, p := range k.People {
		for _, h := range p.Hours {
			if !h.Days.Has(start.Weekday()) || away(p, from) {
				continue
			}
			a := start.Hour()*60 + start.Minute()
			b := a + int(end.Sub(start)/time.Minute)
			if int(h.From) <= a && b <= int(h.Until) {
				return true
			}
		}
	}
	return false
}

func away(p resources.Person, m resources.Moment) bool {
	for _, s := range p.Away {
		if s.From <= m && m < s.Until {
			return true
		}
	}
	return false
}

// milkFor says whether a collection's milk is in the house and still good.
func milkFor(k *resources.Kitchen, supply string, make resources.Moment) bool {
	for _, m := range k.Milk {
		if m.Name != supply {
			continue
		}
		for back := 0; back <= int(m.Keeps/resources.Day)+1; back++ {
			day := make.In(k.Zone).AddDate(0, 0, -back)
			ready := resources.MomentOf(time.Date(day.Year(), day.Month(), day.Day(),
				int(m.Ready)/60, int(m.Ready)%60, 0, 0, k.Zone))
			if m.Days.Has(day.Weekday()) && !closed(m, ready) && ready <= make && make <= ready.Add(m.Keeps) {
				return true
			}
		}
	}
	return false
}

func closed(m resources.Milk, at resources.Moment) bool {
	for _, s := range m.Closed {
		if s.From <= at && at < s.Until {
			return true
		}
	}
	return false
}

// stays gives the boxes that a batch has in cold places, place by place. A range
// of temperatures means the first place that lies in it, as a pencil would.
func (b pencil) stays(k *resources.Kitchen, place string) []busy {
	var out []busy
	for i, s := range b.recipe.Stages {
		if coldName(k, s.At) != place {
			continue
		}
		until := b.left
		if i+1 < len(b.starts) {
			until = b.starts[i+1]
		}
		box := b.boxing(i)
		out = append(out, busy{resources.Span{From: b.starts[i].Add(b.works[i]), Until: until},
			(b.pieces + box.Takes - 1) / box.Takes, b.label})
	}
	return out
}

// boxing is the kind of box of a stage.
func (b pencil) boxing(stage int) schedule.Boxing {
	if own := b.recipe.Stages[stage].Box; own != nil {
		return *own
	}
	return *b.recipe.Box
}

func coldName(k *resources.Kitchen, at schedule.At) string {
	for _, c := range k.Cold {
		if at.Kind == schedule.AtPlace && at.Place == c.Name ||
			at.Kind == schedule.AtRange && at.Low <= c.Temperature && c.Temperature <= at.High {
			return c.Name
		}
	}
	return ""
}

func when(k *resources.Kitchen, m resources.Moment) string {
	return m.In(k.Zone).Format("Mon 2 Jan 15:04")
}

// breach is one way in which the paper plan cannot be carried out.
type breach struct{ kind, text string }

// breaches checks the paper batches against the kitchen, the first of each kind
// for each thing.
func breaches(p *schedule.Problem, all []pencil) []breach {
	k := &p.Kitchen
	var found []breach
	add := func(kind, format string, args ...any) {
		found = append(found, breach{kind, fmt.Sprintf(format, args...)})
	}
	for _, b := range all {
		for i, s := range b.recipe.Stages {
			if b.works[i] > 0 && !awake(k, b.starts[i], b.works[i]) {
				add("hours", "%s: %s %s, %d min: nobody is there", b.label, s.Name, when(k, b.starts[i]), b.works[i])
			}
		}
		if b.recipe.Milk != "" && !milkFor(k, b.recipe.Milk, b.starts[0]) {
			add("milk", "%s: make %s: no milk that fresh", b.label, when(k, b.starts[0]))
		}
	}
	pots := 0
	for _, pot := range k.Pots {
		pots += max(pot.Count, 1)
	}
	if at, n, over := peak(taken(all, schedule.UsePot, func(pencil) int { return 1 }), fixed(pots)); over {
		add("pots", "%s: %d batches for %d pots", when(k, at), n, pots)
	}
	for _, m := range k.Moulds {
		uses := taken(all, schedule.UseMould, func(b pencil) int { return pieceIf(b.recipe.Mould == m.Name, b.pieces) })
		if at, n, over := peak(uses, fixed(m.Count)); over {
			add("moulds", "%s: %d of %d of %s", when(k, at), n, m.Count, m.Name)
		}
	}
	for _, c := range k.Cold {
		var stays []busy
		for _, b := range all {
			stays = append(stays, b.stays(k, c.Name)...)
		}
		limit := func(at resources.Moment) int { return roomFor(k, c, at) }
		if at, n, over := peak(stays, limit); over {
			add("cold", "%s: %d boxes in %s, which takes %d", when(k, at), n, c.Name, limit(at))
		}
	}
	return found
}

// taken gives the occupations of one kind of thing by all batches.
func taken(all []pencil, kind schedule.UseKind, amount func(pencil) int) []busy {
	var out []busy
	for _, b := range all {
		for _, s := range b.during(kind) {
			out = append(out, busy{s, amount(b), b.label})
		}
	}
	return out
}

func fixed(n int) func(resources.Moment) int { return func(resources.Moment) int { return n } }

func pieceIf(yes bool, n int) int {
	if yes {
		return n
	}
	return 0
}

// roomFor is how many boxes a place can hold at most. For a measured place it is
// an upper bound: the smallest box that it is used for, by floor area and layers,
// on the shelves that are open. Over it, no way of standing the boxes exists.
func roomFor(k *resources.Kitchen, c resources.ColdPlace, at resources.Moment) int {
	if !c.Measured() {
		return c.Boxes
	}
	least := k.Boxes[0].Size
	for _, b := range k.Boxes {
		if b.Size.Width*b.Size.Depth < least.Width*least.Depth {
			least = b.Size
		}
	}
	n := 0
	for _, s := range c.Shelves {
		open := true
		for _, t := range s.Taken {
			open = open && !(t.From <= at && at < t.Until)
		}
		if open {
			n += int(s.Size.Width*s.Size.Depth/(least.Width*least.Depth)) * int(s.Size.Height/least.Height)
		}
	}
	return n
}
