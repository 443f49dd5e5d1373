package dose

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// Fill says of each stage of a plan what goes in, which packet it comes from, and what runs out or is past its date.
// It is done once, when a plan is put in force. What went in by the plan before stays as it was told then, whatever
// the recipe says now.
func Fill(p *schedule.Problem, plan *schedule.Plan) {
	f := &filler{p: p, plan: plan}
	for i := range plan.Batches {
		f.batch(&plan.Batches[i])
	}
	for i := range plan.Past {
		f.batch(&plan.Past[i])
	}
	f.usedBefore()
	f.packets()
	plan.Warnings = append(plan.Warnings, f.found...)
}

// filler goes through the batches of a plan.
type filler struct {
	p     *schedule.Problem
	plan  *schedule.Plan
	found []schedule.Warning
	uses  []use
	told  []string // which packet's strength was said to say nothing of a need
}

// use is a dose of a packet.
type use struct {
	packet *schedule.Packet
	dose   schedule.Dose
	batch  string
	stage  *schedule.Task
}

// batch fills in the stages of one batch.
func (f *filler) batch(b *schedule.Batch) {
	old := f.p.Earlier.BatchOrPast(b.ID)
	for i := range b.Stages {
		t := &b.Stages[i]
		was := old.Stage(t.Stage)
		t.Needs = f.doses(b, t)
		if was != nil && was.Begun && t.Begun && len(was.Needs) > 0 && old.Litres == b.Litres {
			t.Needs = given(t.Needs, was.Needs)
		}
		for _, d := range t.Needs {
			if k := f.packetOf(b, t, d.What); k != nil {
				f.uses = append(f.uses, use{k, d, b.ID, t})
			}
		}
	}
}

// doses are those of one stage.
func (f *filler) doses(b *schedule.Batch, t *schedule.Task) (out []schedule.Dose) {
	r := f.p.Recipe(b.Cheese)
	if r == nil {
		return nil
	}
	for i := range r.Needs {
		n := &r.Needs[i]
		if n.Stage != t.Stage {
			continue
		}
		lot := f.lotOf(b, n.What)
		var strength resources.Strength
		if k := f.packetOf(b, t, n.What); k != nil {
			lot, strength = k.Lot, k.Strength
		}
		d, fits := doseOf(n, size{b.Litres, pieces(r, b, t), f.curd(b, t)}, strength, f.p.Kitchen.Scale)
		if d.Lot = lot; !fits {
			f.strengthSaysNothing(b, t, n, strength)
		}
		out = append(out, d)
	}
	return out
}

// pieces are those that there are at a stage: what is there of the batch, and of a stage that has begun what was made.
func pieces(r *schedule.Recipe, b *schedule.Batch, t *schedule.Task) int {
	switch {
	case !t.Begun:
		return b.Pieces
	case b.Made > 0:
		return b.Made
	}
	return int(int64(b.Litres) * int64(r.Yield.Pieces) / int64(r.Yield.From))
}

// curd is what was said last to be the weight of all of a batch, before the work of a stage was over or with that
// stage, however long it took. 0 where nobody said: then there is a blank.
func (f *filler) curd(b *schedule.Batch, t *schedule.Task) (is resources.Milligrams) {
	for _, w := range f.p.Weighed { // by time
		if slices.Contains(b.Names(), w.Batch) && (w.At <= t.Start.Add(t.Work) || w.With == t.Stage) {
			is = w.Is
		}
	}
	return is
}

// lotOf is the lot that was said to have gone into a batch; "" where nobody said.
func (f *filler) lotOf(b *schedule.Batch, what string) (lot string) {
	for _, l := range f.p.LotsUsed {
		if l.What == what && slices.Contains(b.Names(), l.Batch) {
			lot = l.Lot
		}
	}
	return lot
}

// packetOf is the packet that a stage uses: the one that was said to have gone in, else the last that was opened
// before its work is over, for rennet goes in when the milk is warm. nil for none.
func (f *filler) packetOf(b *schedule.Batch, t *schedule.Task, what string) (k *schedule.Packet) {
	said := f.lotOf(b, what)
	for i := range f.p.Packets { // by when they were opened
		o := &f.p.Packets[i]
		if o.What == what && o.From < max(t.Start.Add(t.Work), t.Start+1) && (said == "" || o.Lot == said) {
			k = o
		}
	}
	return k
}

// given are doses of a stage that had begun by the plan before: what was told then is what went in, but for what was
// weighed or said since.
func given(now, then []schedule.Dose) []schedule.Dose {
	out := slices.Clone(then)
	for i := range out {
		k := slices.IndexFunc(now, func(d schedule.Dose) bool { return d.What == out[i].What })
		if k >= 0 && (now[k].Lot != out[i].Lot || out[i].Unweighed()) {
			out[i] = now[k]
		}
	}
	return out
}

// usedBefore adds up what batches took of open packets of which the plan knows no more: those that are over, and those
// that were lost, of which what had begun went in all the same.
func (f *filler) usedBefore() {
	if f.p.Earlier == nil {
		return
	}
	f.plan.Used = slices.Clone(f.p.Earlier.Used)
	went := f.p.Went()
	for _, b := range slices.Concat(f.p.Earlier.Batches, f.p.Earlier.Past) {
		if f.plan.BatchOrPast(b.ID) != nil {
			continue
		}
		if lived := went.Batch(b.ID); lived != nil {
			b = *lived
		}
		for i := range b.Stages {
			t := &b.Stages[i]
			for _, d := range t.Needs {
				if k := f.packetOf(&b, t, d.What); k != nil && t.Start < f.p.From {
					f.addUsed(k, d)
				}
			}
		}
	}
}

// addUsed adds a dose to what a packet has given.
func (f *filler) addUsed(k *schedule.Packet, d schedule.Dose) {
	for i := range f.plan.Used {
		if u := &f.plan.Used[i]; u.What == k.What && u.From == k.From && u.Unit == d.Unit {
			u.Amount += d.Taken()
			return
		}
	}
	f.plan.Used = append(f.plan.Used, schedule.PacketUsed{What: k.What, From: k.From, Amount: d.Taken(), Unit: d.Unit})
}
