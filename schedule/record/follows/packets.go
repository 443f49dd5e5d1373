package follows

import (
	"cmp"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
)

// packets puts together what was opened, which lots went into batches and what curd weighed. A strength or a
// content that cannot be reckoned with is told, and left out.
func (f *follower) packets() {
	f.p.Packets, f.p.LotsUsed, f.p.Weighed = nil, nil, nil
	for _, e := range f.entries.ByTime() {
		switch e.Subject.Kind {
		case record.OfPacket:
			f.p.Packets = append(f.p.Packets, f.packet(e))
		case record.OfBatch, record.OfCheese:
			name := f.batchOf(e)
			for _, l := range e.Batch.Lots {
				f.p.LotsUsed = append(f.p.LotsUsed, schedule.LotUsed{Batch: name, What: l.What, Lot: l.Lot})
			}
			if w := e.Batch.Weight; w.Given {
				f.p.Weighed = append(f.p.Weighed, schedule.CurdWeight{Batch: name, At: e.At, Is: w.Value, With: cmp.Or(e.Batch.Did, e.Batch.Began)})
			}
		}
	}
}

// batchOf is the batch that an entry speaks of; of one made off the plan its id, by the line by which it was made.
func (f *follower) batchOf(e *record.Entry) string {
	if e.Subject.Kind == record.OfBatch {
		return e.Subject.Name
	}
	for i := range f.p.OffPlan {
		if o := &f.p.OffPlan[i]; isLine(o, e) {
			return o.ID
		}
	}
	return ""
}

// packet is one that was opened.
func (f *follower) packet(e *record.Entry) schedule.Packet {
	out := schedule.Packet{What: e.Subject.Name, From: e.At, Lot: e.Packet.Lot, UseBy: e.Packet.UseBy.Or(resources.Date{})}
	const unread = "What the record says of the %s opened on %s cannot be reckoned with: %s. Say it again."
	var err error
	if e.Packet.Strength != "" {
		if out.Strength, err = resources.ParseStrength(e.Packet.Strength); err != nil {
			f.note("packet-unread", e.At, unread, e.Subject.Name, f.when(e.At), err)
		}
	}
	if e.Packet.Holds != "" {
		if out.Holds, err = resources.ParseAmount(e.Packet.Holds); err != nil {
			f.note("packet-unread", e.At, unread, e.Subject.Name, f.when(e.At), err)
		}
	}
	return out
}
